package traytender.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import jdk.jfr.consumer.RecordedEvent;
import jdk.jfr.consumer.RecordedFrame;
import jdk.jfr.consumer.RecordingFile;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;

/**
 * Where the time goes in what misses its goal: samples of the JDK's flight recorder, written as {@code profile.md} beside the table. It
 * adds no row to that.
 */
final class Profiling implements Work {
    private static final int ROWS = 12;

    /** Where a sample belongs: the first of the program's own packages, or of a library's, from the innermost frame outwards. */
    private static final Map<String, String> PARTS = Map.of(
            "org.drools", "rules engine (Drools)",
            "org.kie", "rules engine (Drools)",
            "org.sqlite", "SQLite",
            "org.eclipse.paho", "MQTT client (Paho)",
            "org.eclipse.jetty", "page (Jetty)",
            "com.fasterxml", "JSON (Jackson)");

    @Override
    public List<Result> measure(Place place) throws Exception {
        Season season = Season.site(place.folder("profile"), Replaying.TRAYS, "broker: built-in\n  port: 0")
                .filled(place.days());
        Path replay = place.folder("replay.jfr");
        Child.recorded(place.program(), replay, Replaying.Replays.class, season.path());
        Path start = place.folder("start.jfr");
        try (Running program = Running.recorded(place.program(), season.path(), start)) {
            program.awaitWell();
        }
        String text = "# Where the time goes\n\n"
                + section("Two replays of %d trays, %d days".formatted(Replaying.TRAYS, place.days()), replay)
                + section("A start with the same readings stored, until they are judged", start);
        Files.writeString(place.written().resolve("profile.md"), text);
        return List.of();
    }

    private static String section(String title, Path recording) throws IOException {
        Map<String, Integer> parts = new HashMap<>();
        Map<String, Integer> frames = new HashMap<>();
        int all = 0;
        try (var file = new RecordingFile(recording)) {
            while (file.hasMoreEvents()) {
                RecordedEvent event = file.readEvent();
                if (event.getEventType().getName().equals("jdk.ExecutionSample") && event.getStackTrace() != null) {
                    all++;
                    List<RecordedFrame> stack = event.getStackTrace().getFrames();
                    frames.merge(name(stack.get(0)), 1, Integer::sum);
                    parts.merge(part(stack), 1, Integer::sum);
                }
            }
        }
        return "## " + title + "\n\n" + all + " samples.\n\n" + table("part", parts, all)
                + table("innermost frame", frames, all);
    }

    private static String part(List<RecordedFrame> stack) {
        for (RecordedFrame frame : stack) {
            String type = frame.getMethod().getType().getName();
            for (Map.Entry<String, String> part : PARTS.entrySet()) {
                if (type.startsWith(part.getKey())) {
                    return part.getValue();
                }
            }
            if (type.startsWith("traytender.")) {
                return type.substring(0, type.lastIndexOf('.'));
            }
        }
        return "Java itself";
    }

    private static String name(RecordedFrame frame) {
        String type = frame.getMethod().getType().getName();
        return type.substring(type.lastIndexOf('.') + 1) + "."
                + frame.getMethod().getName();
    }

    private static String table(String head, Map<String, Integer> counts, int all) {
        var rows = new ArrayList<>(counts.entrySet());
        rows.sort(Map.Entry.<String, Integer>comparingByValue(Comparator.reverseOrder())
                .thenComparing(Map.Entry.comparingByKey()));
        var text = new StringBuilder("| " + head + " | share |\n| --- | ---: |\n");
        rows.stream()
                .limit(ROWS)
                .forEach(row -> text.append(
                        String.format(Locale.ROOT, "| %s | %.1f %% |%n", row.getKey(), 100.0 * row.getValue() / all)));
        return text.append('\n').toString();
    }
}
