package traytender.bench;

import java.util.ArrayList;
import java.util.List;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.dashboard.program.Stores;
import traytender.ingest.store.SiteStore;
import traytender.rules.Replay;

/**
 * What a reading costs on 20, 200 and 2,000 trays, the same number of readings each time: stored in groups as the intake stores them,
 * then all rules over them with a snapshot a minute, then the page of all trays. The limit is the cost on 20 trays.
 */
final class Growing implements Work {
    private static final int[] TRAYS = {20, 200, 2_000};
    /** Minutes of readings on 2,000 trays; ten and a hundred times as many on fewer. */
    private static final int SHORTEST = 15;

    private static final int TIMES = 5;
    /** What the issue calls constant: our choice. */
    private static final double CONSTANT = 1.25;

    private record Cost(double store, double judge, double page) {}

    @Override
    public List<Result> measure(Place place) throws Exception {
        var results = new ArrayList<Result>();
        // Once before, so that the smallest does not pay for the machine code of the others.
        cost(place, "growth-before", TRAYS[0]);
        Cost least = cost(place, "growth", TRAYS[0]);
        for (int trays : TRAYS) {
            Cost cost = trays == TRAYS[0] ? least : cost(place, "growth", trays);
            String at = ", %,d trays".formatted(trays);
            results.add(Result.atMost("storing" + at, cost.store(), least.store(), CONSTANT, "us a reading", ""));
            results.add(Result.atMost(
                    "rules and snapshots" + at, cost.judge(), least.judge(), CONSTANT, "us a reading", ""));
            results.add(Result.atMost("page of all trays" + at, cost.page(), least.page(), CONSTANT, "ms a tray", ""));
        }
        return results;
    }

    private static Cost cost(Place place, String name, int trays) throws Exception {
        int minutes = SHORTEST * TRAYS[TRAYS.length - 1] / trays;
        Season season = Season.site(place.folder(name + "-" + trays), trays, "broker: built-in\n  port: 0");
        long start = System.nanoTime();
        season = season.filledMinutes(minutes);
        double store = (System.nanoTime() - start) / 1e3 / season.readings();
        double judge;
        try (SiteStore opened = Stores.toRead(season.folder())) {
            start = System.nanoTime();
            Replay.run(
                    season.folder(),
                    season.folder().crops(),
                    opened.journal().entries(),
                    opened.readings().source(season.folder().site()));
            judge = (System.nanoTime() - start) / 1e3 / season.readings();
        }
        return new Cost(store, judge, pageMs(place, season) / trays);
    }

    private static double pageMs(Place place, Season season) throws Exception {
        try (Running program = Running.start(place.program(), season.path(), "").awaitWell()) {
            double[] page = new double[TIMES];
            for (int i = 0; i < TIMES; i++) {
                long start = System.nanoTime();
                program.answer("/api/v1/trays");
                page[i] = (System.nanoTime() - start) / 1e6;
            }
            return Night.median(page);
        }
    }
}
