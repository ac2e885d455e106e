package traytender.dashboard.page;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import traytender.config.folder.SiteError;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Broker;
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
    private static final Set<String> LOOPBACK = Set.of("127.0.0.1", "localhost", "::1");
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
        routes.get(PATH + "/devices", this::devices);
        routes.post(PATH + "/devices", this::give);
        routes.delete(PATH + "/devices/{name}", this::revoke);
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

    private void devices(Context context) {
        new Query(context);
        Api.answer(context, devices());
    }

    private ObjectNode devices() {
        ObjectNode json = Json.object();
        Broker broker = facts.site().messages().broker();
        if (broker instanceof Broker.BuiltIn builtIn) {
            json.put("broker", "built-in").put("listen", builtIn.listen()).put("tls", builtIn.key() != null);
            json.put("host", host(builtIn));
        } else {
            json.put("broker", ((Broker.Outside) broker).uri())
                    .put("listen", (String) null)
                    .put("tls", false)
                    .put("host", (String) null);
        }
        json.put("port", sensors.port());
        json.set("addresses", Json.words(Sensors.addresses()));
        ArrayNode users = json.putArray("users");
        sensors.users()
                .forEach((name, topics) -> users.addObject().put("name", name).set("topics", Json.words(topics)));
        return json;
    }

    /** Where a board finds the broker; null when this machine has no address in a network. */
    private static @Nullable String host(Broker.BuiltIn broker) {
        if (LOOPBACK.contains(broker.listen())) {
            return broker.listen();
        }
        return Sensors.addresses().stream().findFirst().orElse(null);
    }

    private void give(Context context) {
        var body = new Body(Body.read(context), "name", "topics");
        String name = body.needed("name");
        List<String> topics = body.texts("topics", 20);
        if (topics.isEmpty()) {
            throw Answer.wrong("topics is missing: where " + name + " may publish");
        }
        ObjectNode json = Json.object();
        json.put("name", name);
        String password = sensors.give(name, topics);
        json.put("password", password);
        json.set("topics", Json.words(topics));
        json.set("qr", Json.words(QrRows.of(credentials(name, password, topics))));
        context.status(201);
        Api.answer(context, json);
    }

    /** What a board needs, a line each, as plain text: no open standard has an address form for it that boards read. */
    private String credentials(String name, String password, List<String> topics) {
        return "host: " + devices().path("host").asText("") + "\nport: " + sensors.port() + "\nuser: " + name
                + "\npassword: " + password + "\ntopic: " + String.join(" ", topics) + "\n";
    }

    private void revoke(Context context) {
        String name = context.pathParam("name");
        if (!sensors.revoke(name)) {
            throw Answer.unknown("no device " + name);
        }
        Api.answer(context, devices());
    }
}
