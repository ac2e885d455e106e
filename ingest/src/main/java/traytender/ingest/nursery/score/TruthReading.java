package traytender.ingest.nursery.score;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.site.Zone;
import traytender.ingest.nursery.truth.Truth;
import traytender.ingest.nursery.truth.Truth.Where;

/** Reads {@code truth.json} back. A room's {@code also} stretches and unknown fields are not looked at. */
public final class TruthReading {
    private static final ObjectMapper JSON = new ObjectMapper();

    private TruthReading() {}

    /**
     * Reads a truth file.
     *
     * @throws UncheckedIOException when it cannot be read
     */
    public static Truth read(Path file) {
        try {
            JsonNode root = JSON.readTree(file.toFile());
            return new Truth(
                    about(root),
                    each(root.get("episodes"), TruthReading::episode),
                    each(root.get("allowed"), TruthReading::allowed),
                    each(root.get("forecasts"), TruthReading::forecast));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + file, e);
        }
    }

    private static Truth.About about(JsonNode root) {
        return new Truth.About(
                root.get("scenario").asText(),
                root.get("about").asText(),
                root.get("quiet").asBoolean(),
                time(root, "from"),
                time(root, "to"),
                root.get("tray_days").asInt(),
                root.get("trays").asInt(),
                root.get("rooms").asInt());
    }

    private static Truth.Episode episode(JsonNode node) {
        return new Truth.Episode(
                kinds(node),
                where(node),
                time(node, "from"),
                time(node, "to"),
                time(node, "earliest"),
                time(node, "latest"),
                reasons(node),
                node.path("basis").asText().equals("contract"),
                node.hasNonNull("crosses") ? time(node, "crosses") : null);
    }

    private static Truth.Allowed allowed(JsonNode node) {
        return new Truth.Allowed(
                kinds(node),
                where(node),
                time(node, "from"),
                time(node, "to"),
                reasons(node),
                node.path("why").asText());
    }

    private static Truth.Forecast forecast(JsonNode node) {
        Instant crosses = time(node, "crosses");
        return new Truth.Forecast(
                node.get("tray").asText(),
                Zone.ofWord(node.get("zone").asText()).orElseThrow(),
                node.get("probe").asText(),
                time(node, "since"),
                time(node, "until"),
                crosses,
                node.hasNonNull("low") ? time(node, "low") : crosses,
                node.hasNonNull("high") ? time(node, "high") : crosses,
                node.hasNonNull("guessed") ? time(node, "guessed") : null,
                node.path("watered_first").asBoolean());
    }

    private static List<AlertKind> kinds(JsonNode node) {
        List<String> words = each(node.get("kinds"), JsonNode::asText);
        return words.contains("*")
                ? List.of()
                : words.stream()
                        .map(word -> AlertKind.ofWord(word).orElseThrow())
                        .toList();
    }

    private static Where where(JsonNode node) {
        List<Zone> zones = node.hasNonNull("zones")
                ? each(node.get("zones"), zone -> Zone.ofWord(zone.asText()).orElseThrow())
                : List.of();
        return new Where(each(node.get("where"), JsonNode::asText), zones);
    }

    private static List<ShutOffReason> reasons(JsonNode node) {
        if (!node.hasNonNull("reasons")) {
            return List.of();
        }
        List<String> words = each(node.get("reasons"), JsonNode::asText);
        return Arrays.stream(ShutOffReason.values())
                .filter(reason -> words.contains(reason.word()))
                .toList();
    }

    private static <T> List<T> each(JsonNode array, Function<JsonNode, T> reading) {
        var all = new ArrayList<T>();
        array.forEach(node -> all.add(reading.apply(node)));
        return all;
    }

    private static Instant time(JsonNode node, String field) {
        return Instant.parse(node.get(field).asText());
    }
}
