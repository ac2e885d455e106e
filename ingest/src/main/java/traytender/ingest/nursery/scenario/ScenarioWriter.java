package traytender.ingest.nursery.scenario;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;

/**
 * Writes drawn scenarios: {@code ScenarioWriter OUT [--count N] [--seeds tuning|grading] [--only KIND,KIND]}. Tuning and grading seeds never meet.
 * Kinds take turns, so that a small count holds as many of them as it can.
 */
public final class ScenarioWriter {
    private static final long TUNING = 1_000_000;
    private static final long GRADING = 2_000_000;

    private ScenarioWriter() {}

    /**
     * Writes the scenarios and says so.
     *
     * @throws IllegalArgumentException when an argument makes no sense
     */
    public static void main(String[] args) throws IOException {
        List<String> given = Arrays.asList(args);
        if (given.isEmpty() || given.get(0).startsWith("--")) {
            throw new IllegalArgumentException("OUT [--count N] [--seeds tuning|grading] [--only KIND,KIND]");
        }
        Path out = Files.createDirectories(Path.of(given.get(0)));
        int count = Integer.parseInt(option(given, "--count", "33"));
        String seeds = option(given, "--seeds", "tuning");
        write(out, count, seeds, kinds(option(given, "--only", "")), scenario -> {});
        System.out.println(count + " scenarios with " + seeds + " seeds written to " + out);
    }

    /**
     * Writes scenarios {@code 0} to {@code count - 1} of a set of seeds, giving each to {@code written} as it is done.
     *
     * @param seeds {@code tuning} or {@code grading}
     * @throws IllegalArgumentException when the seeds have another name
     */
    public static void write(Path out, int count, String seeds, List<ScenarioKind> kinds, Consumer<Scenario> written) {
        long base = switch (seeds) {
            case "tuning" -> TUNING;
            case "grading" -> GRADING;
            default -> throw new IllegalArgumentException("--seeds is tuning or grading, not " + seeds);
        };
        for (int i = 0; i < count; i++) {
            ScenarioKind kind = kinds.get(i % kinds.size());
            String name = String.format(Locale.ROOT, "%s-%02d", kind.word(), i / kinds.size() + 1);
            written.accept(Scenario.write(out, name, kind, base + 1000L * kind.ordinal() + i / kinds.size()));
        }
    }

    /**
     * The kinds of these words, parted by commas; all for none.
     *
     * @throws IllegalArgumentException when there is no such kind
     */
    public static List<ScenarioKind> kinds(String words) {
        return words.isEmpty()
                ? List.of(ScenarioKind.values())
                : Arrays.stream(words.split(","))
                        .map(word -> ScenarioKind.valueOf(
                                word.toUpperCase(Locale.ROOT).replace('-', '_')))
                        .toList();
    }

    private static String option(List<String> args, String name, String otherwise) {
        int at = args.indexOf(name);
        return at < 0 || at + 1 >= args.size() ? otherwise : args.get(at + 1);
    }
}
