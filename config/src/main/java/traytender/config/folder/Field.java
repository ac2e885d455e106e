package traytender.config.folder;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/**
 * One value of a file, with its place. Each reading method gives null once it has noted an error; a caller that gets null has
 * nothing more to say about it.
 *
 * @param what the value as errors name it, for example {@code "rows"}
 */
record Field(Node node, String file, String what, Problems problems) {
    private static final int LONGEST_TEXT = 500;
    private static final Pattern ID = Pattern.compile(
            "[^/+#,;=\"\\\\\\p{Cntrl}\\s]([^/+#,;=\"\\\\\\p{Cntrl}]{0,62}[^/+#,;=\"\\\\\\p{Cntrl}\\s])?");

    /** What turns a field into a value; null once it has noted an error. */
    @FunctionalInterface
    interface Reads<T> {
        @Nullable
        T from(Field field);
    }

    /** The same value under another name. */
    Field named(String name) {
        return new Field(node, file, name, problems);
    }

    void wrong(String wrong, String right) {
        problems.add(file, node, wrong, right);
    }

    /** Notes an error and gives nothing. */
    @SuppressWarnings("TypeParameterUnusedInFormals") // it only ever gives null
    <T> @Nullable T refuse(String wrong, String right) {
        wrong(wrong, right);
        return null;
    }

    boolean isMap() {
        return node.getTag().equals(Tag.MAP);
    }

    boolean isList() {
        return node instanceof SequenceNode;
    }

    /** The scalar as written; null without an error when it is no scalar or is empty. */
    @Nullable
    String written() {
        if (!(node instanceof ScalarNode scalar) || scalar.getTag().equals(Tag.NULL)) {
            return null;
        }
        return scalar.getValue();
    }

    /** The value as an error shows it. */
    String shown() {
        String written = written();
        if (written == null) {
            return isMap() ? "a mapping" : isList() ? "a list" : "nothing";
        }
        String text = written.length() > 60 ? written.substring(0, 57) + "..." : written;
        return "\"" + text.replaceAll("\\p{Cntrl}", "\u00B7") + "\"";
    }

    /** A text; a number counts as text as it is written, so that an id may be 12. */
    @Nullable
    String text() {
        return text("a text");
    }

    private @Nullable String text(String right) {
        String text = written();
        boolean isText = node.getTag().equals(Tag.STR)
                || node.getTag().equals(Tag.INT)
                || node.getTag().equals(Tag.FLOAT);
        if (text == null || !isText || text.isBlank()) {
            return refuse(
                    what + " is " + shown(),
                    right + " is right" + (text == null || text.isBlank() ? "" : "; put it in quotes"));
        }
        if (text.length() > LONGEST_TEXT || text.chars().anyMatch(Character::isISOControl)) {
            return refuse(
                    what + " is longer than " + LONGEST_TEXT + " characters or holds control characters",
                    "a short text on one line is right");
        }
        return text;
    }

    /** A name others refer to, 1 to 64 characters. */
    @Nullable
    String id() {
        String text = text("a name");
        if (text != null && !ID.matcher(text).matches()) {
            return refuse(
                    what + " is " + shown() + ", which cannot be a name",
                    "at most 64 letters, digits, - _ . are right, without / + # , ; = \" \\");
        }
        return text;
    }

    /** A text a check accepts. */
    @Nullable
    String text(Pattern form, String right) {
        String text = text(right);
        return text == null || form.matcher(text).matches()
                ? text
                : refuse(what + " is " + shown(), right + " is right");
    }

    /** A number within bounds, both inclusive. */
    @Nullable
    Double number(double lowest, double highest, String unit) {
        String right = "a number " + range(lowest, highest) + (unit.isEmpty() ? "" : " " + unit) + " is right";
        if (!isNumber()) {
            return refuse(what + " is " + shown(), right);
        }
        double value = parse();
        return value >= lowest && value <= highest ? value : refuse(what + " is " + shown(), right);
    }

    /** Any finite number. */
    @Nullable
    Double number() {
        double value = isNumber() ? parse() : Double.NaN;
        return Double.isFinite(value) ? value : refuse(what + " is " + shown(), "a number is right");
    }

    /** A whole number within bounds, both inclusive. */
    @Nullable
    Integer whole(int lowest, int highest) {
        String right = "a whole number from " + lowest + " to " + highest + " is right";
        if (!node.getTag().equals(Tag.INT)) {
            return refuse(what + " is " + shown(), right);
        }
        double value = parse();
        return value >= lowest && value <= highest
                ? Integer.valueOf((int) value)
                : refuse(what + " is " + shown(), right);
    }

    /** True or false. */
    @Nullable
    Boolean yes() {
        return node.getTag().equals(Tag.BOOL)
                ? Boolean.valueOf(written())
                : refuse(what + " is " + shown(), "true or false is right");
    }

    /** One of several words. */
    <E> @Nullable E word(Collection<E> all, Function<E, String> wordOf) {
        String text = written();
        for (E one : all) {
            if (wordOf.apply(one).equals(text)) {
                return one;
            }
        }
        List<String> words = all.stream().map(wordOf).toList();
        String near = text == null
                ? ""
                : Nearest.to(text, words)
                        .map(word -> "did you mean \"" + word + "\"? ")
                        .orElse("");
        return refuse(
                what + " is " + shown(),
                near + (words.size() == 1 ? "" : "one of ") + String.join(", ", words) + " is right");
    }

    /** The items of a list. */
    List<Field> items() {
        if (node instanceof SequenceNode sequence) {
            return sequence.getValue().stream()
                    .map(item -> new Field(item, file, what, problems))
                    .toList();
        }
        wrong(what + " is " + shown(), "a list is right, each item after a dash");
        return List.of();
    }

    /** What every item of a list reads to; items with an error are left out. */
    <T> List<T> list(Reads<T> reads) {
        var values = new ArrayList<T>();
        for (Field item : items()) {
            T value = reads.from(item);
            if (value != null) {
                values.add(value);
            }
        }
        return values;
    }

    /** The keys of a mapping; null when it is none. Keys beside the allowed ones are noted as errors. */
    @Nullable
    Keys keys(Collection<String> allowed) {
        return Keys.of(this, allowed);
    }

    boolean isNumber() {
        boolean plain = node instanceof ScalarNode scalar && scalar.getScalarStyle() == ScalarStyle.PLAIN;
        return plain && (node.getTag().equals(Tag.INT) || node.getTag().equals(Tag.FLOAT));
    }

    /** Not a number where a tag calls something a number that is none, such as {@code !!int x}. */
    private double parse() {
        String text = String.valueOf(written());
        try {
            // The core schema also knows 0x1F and 0o17; nobody writes a limit so, but a number is a number.
            if (text.startsWith("0x")) {
                return new BigInteger(text.substring(2), 16).doubleValue();
            }
            if (text.startsWith("0o")) {
                return new BigInteger(text.substring(2), 8).doubleValue();
            }
            return switch (text.toLowerCase(Locale.ROOT)) {
                case ".inf", "+.inf" -> Double.POSITIVE_INFINITY;
                case "-.inf" -> Double.NEGATIVE_INFINITY;
                case ".nan" -> Double.NaN;
                default -> Double.parseDouble(text);
            };
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }

    static String range(double lowest, double highest) {
        return "from " + plain(lowest) + " to " + plain(highest);
    }

    static String plain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
