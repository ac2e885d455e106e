package traytender.dashboard.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import traytender.config.alert.Alert;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.dashboard.page.BenchFacts.AlertChoice;
import traytender.dashboard.record.AlertJson;
import traytender.dashboard.record.Json;
import traytender.ingest.store.Act;

/** The questions a script or the page may put by HTTP, described by {@code openapi.json}. */
final class Api {
    private static final String JSON = "application/json";
    static final String ROOT = "/api/v1";
    /** Fewest and most points a drawing may ask for. */
    private static final int FEWEST_POINTS = 4;

    private static final int MOST_POINTS = 20_000;
    private static final int MOST_ALERTS = 100_000;
    /** Most urgent first; what has closed comes after what is open, the newest first. */
    private static final Comparator<Alert> URGENT_FIRST = Comparator.comparing((Alert alert) -> !alert.isOpen())
            .thenComparing(alert -> alert.isOpen() ? alert.urgency().ordinal() : 0)
            .thenComparing(Alert::opened, Comparator.reverseOrder())
            .thenComparing(Alert::id);

    private final BenchFacts facts;
    private final BenchJson bench;

    Api(BenchFacts facts) {
        this.facts = facts;
        this.bench = new BenchJson(facts);
    }

    void addTo(RoutesConfig routes) {
        routes.get(ROOT + "/openapi.json", Api::description);
        routes.get(ROOT + "/alerts", this::alerts);
        routes.get(ROOT + "/readings", this::readings);
        routes.get(ROOT + "/outage", context -> plain(context, OutageJson.of(facts.outage())));
        routes.get(ROOT + "/site", context -> plain(context, bench.site()));
        routes.get(ROOT + "/counts", context -> plain(context, bench.counts()));
        routes.get(ROOT + "/rooms", context -> plain(context, bench.rooms()));
        routes.get(ROOT + "/mats", context -> plain(context, bench.mats()));
        routes.get(ROOT + "/probes", context -> plain(context, bench.probes()));
        routes.get(ROOT + "/refusals", context -> plain(context, bench.refusals()));
        routes.get(ROOT + "/unassigned", context -> plain(context, bench.unassigned()));
        // For the page, to which a program that is not well is an answer like any other.
        routes.get(ROOT + "/health", context -> plain(context, health(facts.health())));
        routes.get("/health", this::health);
        routes.get("/metrics", this::metrics);
    }

    /** Open alerts, most urgent first, as the page is told of them. */
    static ArrayNode openAlerts(BenchFacts facts) {
        return alerts(facts, facts.alerts(AlertChoice.OPEN).stream(), Integer.MAX_VALUE);
    }

    private static ArrayNode alerts(BenchFacts facts, Stream<Alert> alerts, int most) {
        ArrayNode array = Json.array();
        Map<String, Act> marks = facts.marks();
        Instant now = facts.now();
        alerts.sorted(URGENT_FIRST).limit(most).forEach(alert -> {
            Act act = marks.get(alert.id());
            ObjectNode json = AlertJson.of(alert);
            json.set("mark", act == null ? null : RoundApi.json(act, now));
            array.add(json);
        });
        return array;
    }

    private void alerts(Context context) {
        var query = new Query(context, "open", "tray", "room", "limit");
        AlertChoice choice = query.yes("open") ? AlertChoice.OPEN : AlertChoice.ALL;
        String tray = query.word("tray").orElse(null);
        String room = query.word("room").orElse(null);
        int most = query.count("limit", 1, MOST_ALERTS).orElse(Integer.MAX_VALUE);
        Stream<Alert> alerts = facts.alerts(choice).stream()
                .filter(alert -> tray == null || tray.equals(alert.tray()))
                .filter(alert -> room == null || room.equals(alert.room()));
        answer(context, alerts(facts, alerts, most));
    }

    private void readings(Context context) throws IOException {
        var query = new Query(context, "probe", "from", "to", "points");
        String id = query.needed("probe");
        Probe probe = facts.site().probe(id).orElseThrow(() -> Answer.unknown("no probe " + id));
        var range = Range.of(query, facts.now());
        int points = query.count("points", FEWEST_POINTS, MOST_POINTS).orElse(Integer.MAX_VALUE);
        List<Reading> readings = Thinning.thin(facts.readings(probe, range.from(), range.to()), points);
        context.contentType(JSON);
        try (OutputStream out = context.outputStream()) {
            ReadingsJson.write(probe, readings, out);
        }
    }

    private void health(Context context) {
        BenchFacts.Health health = facts.health();
        context.status(health.isWell() ? 200 : 503);
        answer(context, health(health));
    }

    private static ObjectNode health(BenchFacts.Health health) {
        ObjectNode json = Json.object();
        json.put("well", health.isWell());
        json.set("causes", Json.words(health.causes()));
        json.set("notes", Json.words(health.notes()));
        return json;
    }

    private void metrics(Context context) {
        context.contentType(Metrics.CONTENT_TYPE).result(Metrics.of(facts));
    }

    private static void description(Context context) throws IOException {
        try (InputStream in = Api.class.getResourceAsStream("openapi.json")) {
            if (in == null) {
                throw new IllegalStateException("openapi.json is missing beside " + Api.class.getName());
            }
            context.contentType(JSON).result(in.readAllBytes());
        }
    }

    private static void plain(Context context, JsonNode json) {
        new Query(context);
        answer(context, json);
    }

    static void answer(Context context, JsonNode json) {
        context.contentType(JSON).result(Json.write(json).getBytes(StandardCharsets.UTF_8));
    }
}
