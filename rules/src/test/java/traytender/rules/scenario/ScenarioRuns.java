package traytender.rules.scenario;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;

/** Replays every scenario below a folder and writes one file of alert records each: arguments FOLDER RESULTS. */
public final class ScenarioRuns {
    private ScenarioRuns() {}

    public static void main(String[] arguments) throws IOException {
        Path results = Path.of(arguments[1]);
        Files.createDirectories(results);
        for (Path path : Scenario.below(Path.of(arguments[0]))) {
            if (arguments.length > 2 && !path.getFileName().toString().contains(arguments[2])) {
                continue;
            }
            try {
                Scenario scenario = Scenario.read(path);
                long start = System.nanoTime();
                List<Alert> alerts = scenario.replay();
                long took = (System.nanoTime() - start) / 1_000_000;
                List<String> lines = new ArrayList<>();
                alerts.forEach(alert -> lines.add(json(alert)));
                Files.write(results.resolve(path.getFileName() + ".jsonl"), lines);
                System.err.println(path.getFileName() + " "
                        + scenario.delivered().size() + " readings " + alerts.size() + " alerts " + took + " ms");
            } catch (RuntimeException e) {
                System.err.println(path + ": " + e);
                e.printStackTrace();
            }
        }
    }

    static String json(Alert alert) {
        var forecast = alert.forecast();
        return "{" + text("id", alert.id()) + "," + text("kind", alert.kind().word()) + ","
                + (alert.tray() == null ? text("room", alert.room()) : text("tray", alert.tray())) + ","
                + text("zone", alert.zone() == null ? null : alert.zone().word()) + ","
                + text("urgency", alert.urgency().word()) + "," + text("opened", alert.opened()) + ","
                + text("closed", alert.closed()) + ","
                + text("reason", alert.reason() == null ? null : alert.reason().word()) + ",\"value\":"
                + number(alert.value()) + ",\"limit\":" + number(alert.limit()) + ",\"probes\":["
                + alert.probes().stream().map(id -> '"' + id + '"').collect(Collectors.joining(",")) + "],"
                + (forecast == null
                        ? ""
                        : text("expected", forecast.expected()) + "," + text("earliest", forecast.earliest()) + ","
                                + text("latest", forecast.latest()) + ",")
                + text("says", alert.says()) + "," + text("do", alert.does()) + "}";
    }

    private static String number(double value) {
        return Double.isFinite(value) ? String.valueOf(value) : "null";
    }

    private static String text(String key, @Nullable Object value) {
        return '"' + key + "\":"
                + (value == null ? "null" : '"' + value.toString().replace("\"", "\\\"") + '"');
    }
}
