package traytender.config.journal;

import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import traytender.config.crop.Stage;
import traytender.config.site.Zone;

/**
 * Typed reading of an entry's detail. A value that cannot be read as its key asks is as if it were not there: the entry
 * stays, whatever its detail says.
 */
public record Details(Map<String, String> detail) {
    private static final Pattern KEY = Pattern.compile("[a-z][a-z-]{0,30}");
    private static final Pattern NUMBER = Pattern.compile("\\d{1,9}(\\.\\d{1,9})?");

    /** The detail of an entry. */
    public static Details of(JournalEntry entry) {
        return new Details(entry.detail());
    }

    /**
     * A detail column taken apart.
     *
     * @param detail key to value
     * @param note what is not in the form {@code key=value}, joined by {@code ; }
     */
    record Parsed(Map<String, String> detail, String note) {}

    /** Takes a detail column apart; of a key that stands twice the first counts and the others go to the note. */
    static Parsed parse(String text) {
        var detail = new TreeMap<String, String>();
        var notes = Stream.<String>builder();
        for (String part : text.split(";", -1)) {
            int equals = part.indexOf('=');
            String key = equals < 0 ? "" : part.substring(0, equals).strip().toLowerCase(Locale.ROOT);
            if (KEY.matcher(key).matches() && !detail.containsKey(key)) {
                detail.put(key, part.substring(equals + 1).strip());
            } else if (!part.isBlank()) {
                notes.add(part.strip());
            }
        }
        return new Parsed(detail, notes.build().collect(Collectors.joining("; ")));
    }

    /** The column {@link #parse} takes apart: keys in alphabetical order, then the note. */
    static String write(Map<String, String> detail, String note) {
        Stream<String> pairs =
                new TreeMap<>(detail).entrySet().stream().map(pair -> pair.getKey() + "=" + pair.getValue());
        return Stream.concat(pairs, Stream.of(note).filter(text -> !text.isEmpty()))
                .collect(Collectors.joining(";"));
    }

    /** The rows it is about; empty for the whole tray. */
    public Optional<Rows> rows() {
        return text("rows").flatMap(Rows::parse);
    }

    /** The rows of the receiving tray; empty when not said. */
    public Optional<Rows> toRows() {
        return text("to-rows").flatMap(Rows::parse);
    }

    /** The zones it is about, parted by commas, blanks, {@code +} or {@code /}; unknown words are passed over; empty for the whole tray. */
    public List<Zone> zones() {
        return text("zones").or(() -> text("zone")).stream()
                .flatMap(text -> Stream.of(text.toLowerCase(Locale.ROOT).split("[,\\s+/]+")))
                .flatMap(word -> Zone.ofWord(word).stream())
                .distinct()
                .toList();
    }

    /** A percentage from 0 to 100, written with or without its sign; empty when not said or beyond. */
    public OptionalDouble percent() {
        OptionalDouble number =
                number(text("percent").map(text -> text.replace("%", "").strip()));
        return number.isPresent() && number.getAsDouble() <= 100 ? number : OptionalDouble.empty();
    }

    /** {@code percent}, else {@code count} over {@code of}; from 0, never more than 100; empty when neither is said. */
    public OptionalDouble share() {
        OptionalInt count = count();
        OptionalInt of = of();
        if (percent().isPresent() || count.isEmpty() || of.isEmpty() || of.getAsInt() == 0) {
            return percent();
        }
        return OptionalDouble.of(Math.min(100, 100.0 * count.getAsInt() / of.getAsInt()));
    }

    /** How many plants or seeds; empty when not said. */
    public OptionalInt count() {
        return whole("count");
    }

    /** Out of how many; empty when not said. */
    public OptionalInt of() {
        return whole("of");
    }

    /** Litres of water; empty when not said. */
    public OptionalDouble litres() {
        return number(text("litres"));
    }

    /** Where it goes: a tray of {@code potted-up}, a room of {@code moved}. */
    public Optional<String> to() {
        return text("to");
    }

    /** The mat it stands on from then on, {@code none} for no mat; only in {@code moved}. */
    public Optional<String> mat() {
        return text("mat");
    }

    /** How it was watered. */
    public Optional<WateredFrom> from() {
        return text("from").flatMap(WateredFrom::ofWord);
    }

    public Optional<Stage> stage() {
        return text("stage").flatMap(text -> Stage.ofWord(text.toLowerCase(Locale.ROOT)));
    }

    public Optional<String> crop() {
        return text("crop");
    }

    public Optional<String> variety() {
        return text("variety");
    }

    /** Seeds put in each cell, from 1; empty when not said. */
    public OptionalInt seedsPerCell() {
        OptionalInt seeds = whole("seeds-per-cell");
        return seeds.isPresent() && seeds.getAsInt() > 0 ? seeds : OptionalInt.empty();
    }

    private Optional<String> text(String key) {
        return Optional.ofNullable(detail.get(key)).filter(text -> !text.isBlank());
    }

    private OptionalInt whole(String key) {
        OptionalDouble number = number(text(key));
        double value = number.orElse(-1);
        return value >= 0 && value == Math.rint(value) ? OptionalInt.of((int) value) : OptionalInt.empty();
    }

    private static OptionalDouble number(Optional<String> text) {
        return text.filter(word -> NUMBER.matcher(word).matches()).stream()
                .mapToDouble(word -> new BigDecimal(word).doubleValue())
                .findFirst();
    }

    /** From which side water was given. */
    public enum WateredFrom {
        ABOVE,
        BELOW;

        static Optional<WateredFrom> ofWord(String word) {
            return Stream.of(values())
                    .filter(from -> from.name().equalsIgnoreCase(word))
                    .findFirst();
        }
    }
}
