package traytender.ingest.nursery.truth;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.site.Zone;
import traytender.ingest.nursery.truth.Truth.Allowed;
import traytender.ingest.nursery.truth.Truth.Episode;
import traytender.ingest.nursery.truth.Truth.Forecast;
import traytender.ingest.nursery.truth.Truth.Where;

/** A scenario's truth as {@code truth.json}. */
public final class TruthFile {
    private static final ObjectMapper JSON = new ObjectMapper();

    private TruthFile() {}

    /**
     * Writes the file.
     *
     * @throws UncheckedIOException when it cannot be written
     */
    public static void write(Path file, Truth truth) {
        try {
            JSON.writerWithDefaultPrettyPrinter().writeValue(file.toFile(), json(truth));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write " + file, e);
        }
    }

    private static ObjectNode json(Truth truth) {
        Truth.About about = truth.about();
        ObjectNode root = JSON.createObjectNode();
        root.put("scenario", about.scenario()).put("about", about.about()).put("quiet", about.quiet());
        root.put("from", about.from().toString()).put("to", about.to().toString());
        root.put("tray_days", about.trayDays()).put("trays", about.trays()).put("rooms", about.rooms());
        ArrayNode episodes = root.putArray("episodes");
        for (int i = 0; i < truth.episodes().size(); i++) {
            episode(episodes.addObject(), truth.episodes().get(i), about.scenario() + "/" + (i + 1));
        }
        ArrayNode allowed = root.putArray("allowed");
        truth.allowed().forEach(one -> allowed(allowed.addObject(), one));
        ArrayNode forecasts = root.putArray("forecasts");
        truth.forecasts().forEach(one -> forecast(forecasts.addObject(), one));
        return root;
    }

    private static void episode(ObjectNode node, Episode episode, String id) {
        node.put("id", id).put("kind", episode.kinds().get(0).word());
        kinds(node, episode.kinds());
        where(node, episode.where());
        node.put("from", episode.from().toString()).put("to", episode.to().toString());
        node.put("earliest", episode.earliest().toString())
                .put("latest", episode.latest().toString());
        reasons(node, episode.reasons());
        node.put("basis", episode.contract() ? "contract" : "judgement").put("required", true);
        if (episode.crosses() != null) {
            node.put("crosses", episode.crosses().toString());
        }
    }

    private static void allowed(ObjectNode node, Allowed allowed) {
        kinds(node, allowed.kinds());
        where(node, allowed.where());
        node.put("from", allowed.from().toString()).put("to", allowed.to().toString());
        reasons(node, allowed.reasons());
        node.put("why", allowed.why());
    }

    private static void forecast(ObjectNode node, Forecast forecast) {
        node.put("tray", forecast.tray()).put("zone", forecast.zone().word()).put("probe", forecast.probe());
        node.put("since", forecast.since().toString())
                .put("until", forecast.until().toString());
        node.put("crosses", forecast.crosses().toString());
        node.put("low", forecast.low().toString()).put("high", forecast.high().toString());
        Instant guessed = forecast.guessed();
        if (guessed != null) {
            node.put("guessed", guessed.toString());
        }
        node.put("watered_first", forecast.wateredFirst());
    }

    private static void kinds(ObjectNode node, List<AlertKind> kinds) {
        ArrayNode words = node.putArray("kinds");
        if (kinds.isEmpty()) {
            words.add("*");
        }
        kinds.forEach(kind -> words.add(kind.word()));
    }

    private static void where(ObjectNode node, Where where) {
        ArrayNode places = node.putArray("where");
        where.places().forEach(places::add);
        if (where.zones().isEmpty()) {
            node.putNull("zones");
            return;
        }
        ArrayNode zones = node.putArray("zones");
        where.zones().stream().map(Zone::word).forEach(zones::add);
    }

    private static void reasons(ObjectNode node, List<ShutOffReason> reasons) {
        if (reasons.isEmpty()) {
            node.putNull("reasons");
            return;
        }
        ArrayNode words = node.putArray("reasons");
        reasons.stream().map(ShutOffReason::word).forEach(words::add);
    }
}
