package traytender.dashboard.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Zone;
import traytender.dashboard.page.BenchFacts.AlertChoice;
import traytender.dashboard.record.Json;
import traytender.ingest.store.Act;
import traytender.ingest.store.Act.Mark;

/** What the grower does about alerts on the round: done, later, not so, seen; and undo. */
final class RoundApi {
    private static final String PATH = Api.ROOT + "/round";
    /** What was done and still is so after this long asks again; our choice: water shows in a plug well within it. */
    static final Duration DONE_HOLDS = Duration.ofHours(2);

    private static final double MOST_HOURS = 72;
    private static final int MOST = 500;
    private static final Set<AlertKind> WANT_WATER =
            Set.of(AlertKind.DRY, AlertKind.DRYING_SOON, AlertKind.MISSED_WATERING);

    private final BenchFacts facts;
    private final BenchActs acts;

    RoundApi(BenchFacts facts, BenchActs acts) {
        this.facts = facts;
        this.acts = acts;
    }

    void addTo(RoutesConfig routes) {
        routes.post(PATH, this::act);
        routes.delete(PATH + "/{number}", this::undo);
    }

    private void act(Context context) {
        var body = new Body(Body.read(context), "mark", "alerts", "hours", "watered");
        String word = body.needed("mark");
        Mark mark = Mark.ofWord(word)
                .orElseThrow(() -> Answer.wrong("mark is " + word + "; right are done, later, not-so, seen"));
        List<Alert> alerts = alerts(body.texts("alerts", MOST));
        Instant until = until(mark, body);
        List<JournalEntry> entries = mark == Mark.DONE ? entries(alerts, body.part("watered")) : List.of();
        Act act = acts.mark(mark, until, alerts.stream().map(Alert::id).toList(), entries);
        context.status(201);
        Api.answer(context, json(act, facts.now()));
    }

    /** Those that are still open: one of a bench's may have closed while the grower walked there. */
    private List<Alert> alerts(List<String> ids) {
        if (ids.isEmpty()) {
            throw Answer.wrong("alerts is empty; right is a list of ids of open alerts");
        }
        var asked = new HashSet<>(ids);
        List<Alert> open = facts.alerts(AlertChoice.OPEN).stream()
                .filter(alert -> asked.contains(alert.id()))
                .toList();
        if (open.isEmpty()) {
            throw Answer.unknown("none of these alerts is open");
        }
        return open;
    }

    private @Nullable Instant until(Mark mark, Body body) {
        var hours = body.number("hours", 0.25, MOST_HOURS);
        if (hours.isPresent() != (mark == Mark.LATER)) {
            throw Answer.wrong("hours is needed with later, and goes with nothing else");
        }
        return switch (mark) {
            case DONE -> facts.now().plus(DONE_HOLDS);
            case LATER -> facts.now().plusSeconds(Math.round(hours.orElseThrow() * 3600));
            case NOT_SO, SEEN -> null;
        };
    }

    /** What the journal is told of what was done: waterings, and a mat turned off. */
    private List<JournalEntry> entries(List<Alert> alerts, JsonNode watered) {
        var body = new Body(watered.isMissingNode() ? Json.object() : watered, "from", "trays");
        Map<String, String> from = body.text("from")
                .map(word -> {
                    if (!word.equals("above") && !word.equals("below")) {
                        throw Answer.wrong("from is " + word + "; right are above, below");
                    }
                    return Map.of("from", word);
                })
                .orElse(Map.of());
        List<String> whole = body.texts("trays", MOST);
        for (String tray : whole) {
            if (facts.site().tray(tray).isEmpty()) {
                throw Answer.wrong("there is no tray " + tray);
            }
        }
        var zones = new LinkedHashMap<String, Set<Zone>>();
        whole.forEach(tray -> zones.put(tray, Set.of(Zone.TRAY)));
        var entries = new ArrayList<JournalEntry>();
        for (Alert alert : alerts) {
            if (WANT_WATER.contains(alert.kind()) && alert.tray() != null && !whole.contains(alert.tray())) {
                zones.computeIfAbsent(alert.tray(), tray -> new TreeSet<>())
                        .add(alert.zone() == null ? Zone.TRAY : alert.zone());
            } else if (alert.kind() == AlertKind.MAT_SHUT_OFF && alert.tray() != null) {
                entries.add(new JournalEntry(facts.now(), alert.tray(), EntryKind.MAT_OFF, Map.of(), ""));
            }
        }
        zones.forEach((tray, wet) -> entries.add(watered(tray, wet, from)));
        return entries.stream().distinct().toList();
    }

    private JournalEntry watered(String tray, Set<Zone> zones, Map<String, String> from) {
        var detail = new LinkedHashMap<>(from);
        if (!zones.contains(Zone.TRAY)) {
            detail.put("zones", String.join(",", zones.stream().map(Zone::word).toList()));
        }
        return new JournalEntry(facts.now(), tray, EntryKind.WATERED, detail, "");
    }

    private void undo(Context context) {
        long number;
        try {
            number = Long.parseLong(context.pathParam("number"));
        } catch (NumberFormatException e) {
            throw Answer.unknown("nothing done has the number " + context.pathParam("number"));
        }
        Act undone = acts.undo(number)
                .orElseThrow(() -> Answer.unknown("nothing done has the number " + number + ", or it was undone"));
        Api.answer(context, json(undone, facts.now()).put("holds", false));
    }

    /** What was done, as it stands beside an alert. */
    static ObjectNode json(Act act, Instant now) {
        ObjectNode json = Json.object();
        json.put("act", act.number());
        json.put("mark", act.mark().word());
        json.set("at", Json.time(act.at()));
        json.set("until", Json.time(act.until()));
        json.put("holds", act.holds(now));
        ArrayNode entries = json.putArray("entries");
        act.entries().forEach(entries::add);
        return json;
    }
}
