package traytender.dashboard.page;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.TreeSet;
import traytender.config.folder.SiteError;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.dashboard.record.Json;
import traytender.dashboard.setup.Likely;
import traytender.dashboard.setup.Sensors;
import traytender.dashboard.setup.SiteChange;
import traytender.dashboard.setup.SiteDesk;
import traytender.dashboard.setup.SiteRefusedException;
import traytender.dashboard.setup.SiteState;
import traytender.ingest.decode.Fields;
import traytender.ingest.intake.Unassigned;

/** Setting up and changing the bench by HTTP. */
final class SetupApi {
    private static final String PATH = Api.ROOT + "/site";
    private static final int MOST_CHANGES = 200;
    /** Enough to draw a day. */
    private static final int MOST_POINTS = 300;

    private static final Duration LONGEST_HANDS_ON = Duration.ofHours(2);
    private static final ObjectMapper MAPPER = new ObjectMapper();

    private final BenchFacts facts;
    private final SiteDesk desk;
    private final Sensors sensors;

    SetupApi(BenchFacts facts, SiteDesk desk, Sensors sensors) {
        this.facts = facts;
        this.desk = desk;
        this.sensors = sensors;
    }

    void addTo(RoutesConfig routes) {
        routes.get(PATH + "/setup", this::setup);
        routes.get(PATH + "/changes", context -> {
            new Query(context);
            Api.answer(context, changes());
        });
        routes.post(PATH + "/changes", this::change);
        routes.post(PATH + "/changes/{number}/take-back", this::takeBack);
        routes.get(PATH + "/sensors", this::unassigned);
        routes.get(PATH + "/hand", this::hand);
        routes.post(PATH + "/calibration-trial", this::trial);
        routes.exception(
                SiteRefusedException.class,
                (refused, context) ->
                        PageServer.error(context, refused.isStale() ? 409 : 422, String.valueOf(refused.getMessage())));
    }

    private void setup(Context context) {
        new Query(context);
        Api.answer(context, state());
    }

    private ObjectNode state() {
        SiteState state = desk.state();
        ObjectNode json = Json.object();
        json.put("version", state.version());
        json.put("begun", state.isBegun());
        json.set("keys", MAPPER.valueToTree(state.keys()));
        json.set(
                "errors",
                Json.words(state.errors().stream().map(SiteError::toString).toList()));
        json.set("crops", Json.words(new TreeSet<>(facts.crops().byName().keySet())));
        json.put("timezone", facts.site().timezone().getId());
        return json;
    }

    private ArrayNode changes() {
        ArrayNode json = Json.array();
        for (SiteChange change : desk.changes()) {
            ObjectNode one = json.addObject();
            one.put("number", change.number());
            one.set("at", Json.time(change.at()));
            one.put("who", change.who());
            one.put("what", change.what());
            one.put("current", change.isCurrent());
        }
        return json;
    }

    private void change(Context context) {
        var body = new Body(Body.read(context), "version", "who", "changes");
        var changes = new SetupChanges(body.list("changes", MOST_CHANGES));
        desk.change(body.text("version").orElse(""), who(body), changes.words(), changes::edit);
        context.status(201);
        Api.answer(context, state());
    }

    private void takeBack(Context context) {
        var body = new Body(Body.read(context), "version", "who");
        desk.takeBack(number(context), body.text("version").orElse(""), who(body));
        Api.answer(context, state());
    }

    private static String who(Body body) {
        return body.text("who").orElse("").strip();
    }

    private static int number(Context context) {
        String text = context.pathParam("number");
        if (!text.matches("\\d{1,6}")) {
            throw Answer.unknown("there is no change " + text);
        }
        return Integer.parseInt(text);
    }

    private void unassigned(Context context) {
        new Query(context);
        ArrayNode json = Json.array();
        for (Unassigned heard : sensors.unassigned()) {
            ObjectNode one = json.addObject();
            one.put("topic", heard.topic());
            one.put("payload", heard.payload());
            one.put("count", heard.count());
            one.set("last", Json.time(heard.last()));
            Fields fields = Fields.of(heard.whole());
            one.put("time", fields.time().orElse(null));
            ArrayNode found = one.putArray("fields");
            fields.found().forEach(field -> found.add(json(heard.topic(), field, fields.found())));
        }
        Api.answer(context, json);
    }

    private static ObjectNode json(String topic, Fields.Found field, List<Fields.Found> all) {
        ObjectNode json = Json.object();
        json.put("format", field.format());
        json.put("where", field.where());
        json.set("value", Json.number(field.value(), 6));
        json.put("unit", field.unit());
        Likely likely = Likely.of(topic, field, all).orElse(null);
        json.put("measures", likely == null ? null : likely.measures().word());
        json.put("why", likely == null ? null : likely.why());
        json.set("scale", likely == null || likely.scale().isEmpty() ? null : MAPPER.valueToTree(likely.scale()));
        return json;
    }

    /** What a probe sends while it is held, warmed, dipped or weighed: raw values, the newest last. */
    private void hand(Context context) {
        var query = new Query(context, "probe", "since");
        Probe probe = probe(facts.site(), query.needed("probe"));
        Instant now = facts.now();
        Instant since = query.time("since").orElse(now.minus(Duration.ofMinutes(10)));
        Instant from = since.isBefore(now.minus(LONGEST_HANDS_ON)) ? now.minus(LONGEST_HANDS_ON) : since;
        ArrayNode points = Json.array();
        sensors.readings(probe, from, now.plus(Duration.ofMinutes(5)))
                .forEach(reading -> points.addArray()
                        .add(Json.time(reading.time()))
                        .add(Json.number(reading.raw(), 6))
                        .add(Json.number(reading.value(), 6)));
        ObjectNode json = Json.object();
        json.put("probe", probe.id());
        json.set("readings", points);
        Api.answer(context, json);
    }

    private static Probe probe(Site site, String id) {
        return site.probe(id).orElseThrow(() -> Answer.unknown("no probe " + id));
    }

    /** What another calibration would make of the last day's readings. */
    private void trial(Context context) {
        var body = new Body(Body.read(context), "probe", "calibration");
        String id = body.needed("probe");
        Probe before = probe(facts.site(), id);
        var change = new SetupChanges(List.of(
                Json.object().put("do", "calibrate").put("probe", id).set("calibration", body.part("calibration"))));
        Probe after = probe(desk.tried(change::edit).site(), id);
        Instant now = facts.now();
        List<Reading> old = Thinning.thin(
                sensors.readings(before, now.minus(Duration.ofDays(1)), now.plusSeconds(300)), MOST_POINTS);
        List<Reading> fresh = Sensors.read(after, old);
        ObjectNode json = Json.object();
        json.put("probe", id);
        json.put(
                "outside",
                fresh.stream()
                        .filter(one -> one.has(Marks.CLAMPED) || one.has(Marks.RANGE))
                        .count());
        ArrayNode points = json.putArray("readings");
        for (int i = 0; i < old.size(); i++) {
            points.addArray()
                    .add(Json.time(old.get(i).time()))
                    .add(Json.number(old.get(i).value(), 4))
                    .add(Json.number(fresh.get(i).value(), 4));
        }
        Api.answer(context, json);
    }
}
