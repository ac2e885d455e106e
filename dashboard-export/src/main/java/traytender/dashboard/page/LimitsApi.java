package traytender.dashboard.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import traytender.config.crop.Crop;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;
import traytender.config.folder.CropSources;
import traytender.dashboard.limits.CropFolder;
import traytender.dashboard.limits.LimitChange;
import traytender.dashboard.limits.LimitsDesk;
import traytender.dashboard.limits.Trial;
import traytender.dashboard.record.Json;
import traytender.ingest.store.CropFileVersion;

/** Limits by HTTP: looked at, tried on stored readings, kept, brought back. */
final class LimitsApi {
    private static final String PATH = Api.ROOT + "/limits";
    private static final int MOST_CHANGES = 50;
    private static final int MOST_DAYS = 366;
    private static final Duration WEEK = Duration.ofDays(7);

    private final BenchFacts facts;
    private final LimitsDesk desk;

    LimitsApi(BenchFacts facts, LimitsDesk desk) {
        this.facts = facts;
        this.desk = desk;
    }

    void addTo(RoutesConfig routes) {
        routes.get(PATH, this::limits);
        routes.post(PATH, this::keep);
        routes.get(PATH + "/suggestions", context -> Api.answer(context, SuggestionsJson.of(desk.suggestions())));
        routes.get(PATH + "/stays", this::stays);
        routes.get(PATH + "/versions", context -> Api.answer(context, versions()));
        routes.post(PATH + "/versions/{number}/bring-back", this::bringBack);
        routes.post(PATH + "/trials", this::start);
        routes.get(
                PATH + "/trials/{number}", context -> Api.answer(context, TrialJson.of(trial(context), facts.marks())));
        routes.delete(PATH + "/trials/{number}", context -> {
            Trial trial = trial(context);
            trial.cancel();
            Api.answer(context, TrialJson.of(trial, facts.marks()));
        });
        routes.exception(
                CropFolder.RefusedException.class,
                (refused, context) -> PageServer.error(context, 409, String.valueOf(refused.getMessage())));
    }

    private void limits(Context context) {
        var query = new Query(context, "all");
        Set<String> names =
                query.yes("all") ? new TreeSet<>(facts.crops().byName().keySet()) : desk.used();
        ObjectNode json = Json.object();
        ArrayNode crops = json.putArray("crops");
        names.forEach(name -> facts.crops().find(name).ifPresent(crop -> crops.add(json(crop))));
        ObjectNode sources = json.putObject("sources");
        CropSources.citations().forEach(sources::put);
        Api.answer(context, json);
    }

    private ObjectNode json(Crop crop) {
        ObjectNode json = Json.object();
        json.put("crop", crop.name());
        ArrayNode stages = json.putArray("stages");
        Set<Stage> standing = standing(crop.name());
        new TreeMap<>(crop.stages()).forEach((stage, limits) -> {
            ObjectNode ofStage = stages.addObject();
            ofStage.put("stage", stage.word());
            ofStage.put("standing", standing.contains(stage));
            ArrayNode list = ofStage.putArray("limits");
            for (LimitKey key : LimitKey.values()) {
                list.add(json(crop, stage, limits, key));
            }
        });
        return json;
    }

    private static ObjectNode json(Crop crop, Stage stage, Limits limits, LimitKey key) {
        ObjectNode json = Json.object();
        json.put("limit", key.word());
        json.set("value", Json.number(limits.get(key), 4));
        json.put("unit", key.unit());
        json.set("lowest", Json.number(key.lowest(), 4));
        json.set("highest", Json.number(key.highest(), 4));
        json.put("source", crop.sources().get(stage.word() + "/" + key.word()));
        return json;
    }

    /** The stages at which the crop stands on a tray now. */
    private Set<Stage> standing(String crop) {
        return facts.trays().stream()
                .flatMap(tray -> tray.sowings().stream())
                .filter(view -> view.sowing().crop().equals(crop))
                .map(view -> view.stage())
                .collect(Collectors.toSet());
    }

    private void start(Context context) {
        var body = new Body(Body.read(context), "changes", "from", "to");
        List<LimitChange> changes = changes(body);
        Instant to = body.time("to").orElse(facts.now().plusSeconds(1));
        Instant from = body.time("from").orElse(to.minus(WEEK));
        if (!from.isBefore(to)) {
            throw Answer.wrong("from is not before to");
        }
        Trial trial = desk.start(changes, from, to)
                .orElseThrow(() -> Answer.refused(409, "there are no readings yet to try it on"));
        context.status(202);
        Api.answer(context, TrialJson.of(trial, facts.marks()));
    }

    private List<LimitChange> changes(Body body) {
        List<JsonNode> list = body.list("changes", MOST_CHANGES);
        if (list.isEmpty()) {
            throw Answer.wrong("changes is empty; right is a list of {\"limit\": \"dry-line\", \"by\": 0.05}");
        }
        return list.stream().map(this::change).toList();
    }

    private LimitChange change(JsonNode json) {
        var body = new Body(json, "crop", "stage", "limit", "by");
        String crop = body.text("crop").orElse(null);
        if (crop != null && facts.crops().find(crop).isEmpty()) {
            throw Answer.wrong("there is no crop " + crop);
        }
        Stage stage = body.text("stage").map(LimitsApi::stage).orElse(null);
        String word = body.needed("limit");
        LimitKey key = LimitKey.ofWord(word)
                .orElseThrow(() -> Answer.wrong("there is no limit " + word + "; right are "
                        + Arrays.stream(LimitKey.values()).map(LimitKey::word).collect(Collectors.joining(", "))));
        double span = key.highest() - key.lowest();
        double by = body.number("by", -span, span)
                .orElseThrow(() -> Answer.wrong("by is missing: how far the limit is moved"));
        return new LimitChange(crop, stage, key, by);
    }

    private static Stage stage(String word) {
        return Stage.ofWord(word)
                .filter(stage -> stage != Stage.PLANTED_OUT)
                .orElseThrow(() -> Answer.wrong("there are no limits for the stage " + word));
    }

    private void keep(Context context) {
        var body = new Body(Body.read(context), "changes", "who", "why");
        desk.keep(
                changes(body),
                body.text("who").orElse("").strip(),
                body.text("why").orElse("").strip());
        context.status(201);
        Api.answer(context, versions());
    }

    private void bringBack(Context context) {
        var body = new Body(Body.read(context), "who", "why");
        if (!desk.bringBack(
                number(context),
                body.text("who").orElse("").strip(),
                body.text("why").orElse("").strip())) {
            throw Answer.unknown("no version " + context.pathParam("number"));
        }
        Api.answer(context, versions());
    }

    private Trial trial(Context context) {
        return Optional.of(number(context))
                .flatMap(desk::trial)
                .orElseThrow(() -> Answer.unknown("no trial " + context.pathParam("number") + ", or no longer"));
    }

    private static int number(Context context) {
        try {
            return Integer.parseInt(context.pathParam("number"));
        } catch (NumberFormatException e) {
            throw Answer.unknown("there is nothing of the number " + context.pathParam("number"));
        }
    }

    private ArrayNode versions() {
        ArrayNode json = Json.array();
        for (CropFileVersion version : desk.versions()) {
            ObjectNode one = json.addObject();
            one.put("number", version.number());
            one.put("file", version.file());
            one.put("text", version.text());
            one.set("at", Json.time(version.at()));
            one.put("who", version.who());
            one.put("what", version.what());
            one.put("why", version.why());
        }
        return json;
    }

    private void stays(Context context) {
        var query = new Query(context, "days");
        int days = query.count("days", 1, MOST_DAYS).orElse(7);
        Instant now = facts.now();
        Api.answer(context, StaysJson.of(desk.stays(now.minus(Duration.ofDays(days)), now.plusMillis(1))));
    }
}
