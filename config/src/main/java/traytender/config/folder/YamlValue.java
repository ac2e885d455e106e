package traytender.config.folder;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Values of maps, lists, texts, numbers and truths, written as a hand would write them in a site file. */
final class YamlValue {
    private static final int LONGEST_LINE = 100;
    /** Words without signs that mean something to YAML. */
    private static final Pattern WORDS = Pattern.compile("\\p{L}[\\p{L}\\p{N}_./-]*( [\\p{L}\\p{N}_./-]+)*");

    /** Days, times, and from-to such as {@code 1-4}, which YAML 1.2 takes as text. */
    private static final Pattern DATES =
            Pattern.compile("\\d{4}-\\d\\d-\\d\\d(T\\d\\d:\\d\\d(:\\d\\d(\\.\\d+)?)?Z)?|\\d{1,3}-\\d{1,3}");

    private static final Set<String> TAKEN = Set.of("true", "false", "null");

    private YamlValue() {}

    /** On one line, with brackets. */
    static String flow(Object value) {
        if (value instanceof Map<?, ?> map) {
            return map.entrySet().stream()
                    .map(pair -> text(String.valueOf(pair.getKey())) + ": " + flow(pair.getValue()))
                    .collect(Collectors.joining(", ", "{", "}"));
        }
        if (value instanceof List<?> list) {
            return list.stream().map(YamlValue::flow).collect(Collectors.joining(", ", "[", "]"));
        }
        if (value instanceof Number number) {
            String plain =
                    new BigDecimal(number.toString()).stripTrailingZeros().toPlainString();
            return plain.equals("-0") ? "0" : plain;
        }
        return value instanceof Boolean ? value.toString() : text(String.valueOf(value));
    }

    /** After a key: on the same line, or a list beneath it, an item a line. */
    static String afterKey(Object value, int indent, String newline) {
        if (!(value instanceof List<?> list) || list.isEmpty() || !(list.get(0) instanceof Map<?, ?>)) {
            return " " + flow(value);
        }
        return list.stream()
                .map(one -> newline + " ".repeat(indent + 2) + item(one, indent + 2, newline))
                .collect(Collectors.joining());
    }

    /** An item of a list with its dash: on one line where it is short, else a key a line. */
    static String item(Object value, int indent, String newline) {
        String short_ = flow(value);
        if (!(value instanceof Map<?, ?> map) || (short_.length() <= LONGEST_LINE && !short_.contains("[{"))) {
            return "- " + short_;
        }
        String separator = newline + " ".repeat(indent + 2);
        return "- "
                + map.entrySet().stream()
                        .map(pair -> text(String.valueOf(pair.getKey())) + ":"
                                + afterKey(pair.getValue(), indent + 2, newline))
                        .collect(Collectors.joining(separator));
    }

    private static String text(String text) {
        boolean isPlain = DATES.matcher(text).matches()
                || (WORDS.matcher(text).matches() && !TAKEN.contains(text.toLowerCase(Locale.ROOT)));
        return isPlain ? text : quoted(text);
    }

    private static String quoted(String text) {
        var out = new StringBuilder("\"");
        text.codePoints().forEach(sign -> {
            if (sign == '"' || sign == '\\') {
                out.append('\\').appendCodePoint(sign);
            } else if (Character.isISOControl(sign)
                    || sign == 0xFEFF
                    || Character.getType(sign) == Character.SURROGATE
                    || sign == 0x2028
                    || sign == 0x2029
                    || sign == 0xFFFE
                    || sign == 0xFFFF) {
                out.append(String.format("\\u%04X", sign));
            } else {
                out.appendCodePoint(sign);
            }
        });
        return out.append('"').toString();
    }
}
