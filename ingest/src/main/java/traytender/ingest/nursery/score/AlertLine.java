package traytender.ingest.nursery.score;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.site.Zone;

/**
 * What the scoring reads of one alert record.
 *
 * @param place {@code tray:ID} or {@code room:ID}
 * @param zone {@link Zone#TRAY} when the record names none
 * @param closed null while open
 * @param forecast null unless it is a forecast
 */
public record AlertLine(
        AlertKind kind,
        String place,
        Zone zone,
        Instant opened,
        @Nullable Instant closed,
        @Nullable ShutOffReason reason,
        @Nullable Forecast forecast) {
    private static final ObjectMapper JSON = new ObjectMapper();

    /** An expected time with its interval. */
    public record Forecast(Instant expected, Instant earliest, Instant latest) {}

    /**
     * Reads a file with one record a line, in order of opening.
     *
     * @throws UncheckedIOException when it cannot be read
     */
    public static List<AlertLine> read(Path file) {
        try (var lines = Files.lines(file)) {
            return lines.filter(line -> !line.isBlank())
                    .map(AlertLine::parse)
                    .sorted(Comparator.comparing(AlertLine::opened))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + file, e);
        }
    }

    /**
     * Reads one record.
     *
     * @throws IllegalArgumentException when it is none
     */
    static AlertLine parse(String line) {
        try {
            JsonNode node = JSON.readTree(line);
            String place = node.hasNonNull("tray")
                    ? "tray:" + node.get("tray").asText()
                    : "room:" + node.path("room").asText();
            return new AlertLine(
                    AlertKind.ofWord(node.path("kind").asText()).orElseThrow(),
                    place,
                    Zone.ofWord(node.path("zone").asText()).orElse(Zone.TRAY),
                    Instant.parse(node.path("opened").asText()),
                    time(node, "closed"),
                    reason(node.path("reason").asText()),
                    forecast(node));
        } catch (IOException e) {
            throw new IllegalArgumentException("no alert record: " + line, e);
        }
    }

    private static @Nullable ShutOffReason reason(String word) {
        for (ShutOffReason reason : ShutOffReason.values()) {
            if (reason.word().equals(word)) {
                return reason;
            }
        }
        return null;
    }

    private static @Nullable Forecast forecast(JsonNode node) {
        Instant expected = time(node, "expected");
        Instant earliest = time(node, "earliest");
        Instant latest = time(node, "latest");
        return expected == null || earliest == null || latest == null ? null : new Forecast(expected, earliest, latest);
    }

    private static @Nullable Instant time(JsonNode node, String field) {
        return node.hasNonNull(field) ? Instant.parse(node.get(field).asText()) : null;
    }
}
