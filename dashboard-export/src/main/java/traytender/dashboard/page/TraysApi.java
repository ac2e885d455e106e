package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import traytender.dashboard.record.Json;
import traytender.rules.few.Coverage;
import traytender.rules.few.JudgedTray;
import traytender.rules.few.WholeTray;
import traytender.rules.view.ProbeView;
import traytender.rules.view.TrayView;

/** Trays by HTTP: as they are and as they were. */
final class TraysApi {
    private static final String PATH = Api.ROOT + "/trays";
    private static final int USUAL_VIEWS = 49;
    private static final int MOST_VIEWS = 200;
    /** The longest stretch that is looked back on at once; our choice, a run of a few seconds. */
    private static final Duration LONGEST = Duration.ofDays(31);

    private final BenchFacts facts;

    TraysApi(BenchFacts facts) {
        this.facts = facts;
    }

    void addTo(RoutesConfig routes) {
        routes.get(PATH, this::trays);
        routes.get(PATH + "/{id}", this::tray);
        routes.get(Api.ROOT + "/coverage", this::coverage);
        routes.get(PATH + "/{id}/history", this::history);
    }

    private void trays(Context context) {
        var query = new Query(context, "cells");
        boolean bare = query.word("cells").isPresent() && !query.yes("cells");
        ArrayNode trays = Json.array();
        List<TrayView> views = facts.trays();
        Coverage coverage = coverageOf(views);
        for (TrayView tray : views) {
            ObjectNode json = TrayJson.of(
                    tray,
                    coverage.judged(tray.id()).orElse(null),
                    WholeTray.of(tray, facts.probes()).orElse(null));
            trays.add(bare ? json.without("cells") : json);
        }
        Api.answer(context, trays);
    }

    private void tray(Context context) {
        new Query(context);
        TrayView tray = known(context);
        JudgedTray judged = coverageOf(facts.trays()).judged(tray.id()).orElse(null);
        Api.answer(
                context,
                TrayJson.of(tray, judged, WholeTray.of(tray, facts.probes()).orElse(null)));
    }

    /** Which trays have a probe, which are judged from others, which not at all, and where the next probe helps most. */
    private void coverage(Context context) {
        new Query(context);
        Coverage coverage = coverageOf(facts.trays());
        ObjectNode json = Json.object();
        json.set("probed", Json.words(coverage.probed()));
        ArrayNode judged = json.putArray("judged");
        coverage.judged()
                .forEach(one -> judged.addObject().put("tray", one.tray()).put("from", one.from()));
        json.set("blind", Json.words(coverage.blind()));
        Coverage.Advice advice = coverage.next();
        ObjectNode next = advice == null ? null : Json.object();
        if (advice != null && next != null) {
            next.put("tray", advice.tray()).put("forBlind", advice.isForBlind());
            next.set("speaksFor", Json.words(advice.speaksFor()));
        }
        json.set("next", next);
        Api.answer(context, json);
    }

    private Coverage coverageOf(List<TrayView> trays) {
        List<ProbeView> probes = facts.probes();
        Set<String> weighed = trays.stream()
                .filter(tray -> WholeTray.of(tray, probes).isPresent())
                .map(TrayView::id)
                .collect(Collectors.toSet());
        return Coverage.of(trays, weighed);
    }

    private TrayView known(Context context) {
        String id = context.pathParam("id");
        return facts.trays().stream()
                .filter(tray -> tray.id().equals(id))
                .findFirst()
                .orElseThrow(() -> Answer.unknown("no tray " + id));
    }

    private void history(Context context) {
        var query = new Query(context, "from", "to", "views");
        String id = known(context).id();
        var range = Range.of(query, facts.now());
        if (Duration.between(range.from(), range.to()).compareTo(LONGEST) > 0) {
            throw Answer.wrong("at most " + LONGEST.toDays() + " days are looked back on at once");
        }
        int views = query.count("views", 2, MOST_VIEWS).orElse(USUAL_VIEWS);
        ArrayNode json = Json.array();
        facts.history(id, times(range, views)).forEach(view -> json.add(TrayJson.of(view, null, null)));
        Api.answer(context, json);
    }

    /** Evenly from the first to the last. */
    private static List<Instant> times(Range range, int count) {
        long spanMs = Duration.between(range.from(), range.to()).toMillis();
        return LongStream.range(0, count)
                .mapToObj(i -> range.from().plusMillis(spanMs * i / (count - 1)))
                .toList();
    }
}
