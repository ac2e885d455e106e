package traytender.bench;

import java.util.ArrayList;
import java.util.List;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.config.folder.SiteFolder;
import traytender.dashboard.program.Stores;
import traytender.ingest.store.SiteStore;
import traytender.rules.Replay;
import traytender.rules.Watch;

/** Whether a reading costs the same on a large bench as on a small one: stored, judged, and shown. */
final class Growing implements Work {
    private static final int[] TRAYS = {20, 200, 2_000};
    private static final int MINUTES = 40;
    /** Trays judged in all at each step, the small bench several times over, so that each is long enough to be measured. */
    private static final int JUDGED = 1_000;
    /** What measuring itself scatters by; our choice. */
    private static final double BORNE = 1.25;

    /** Microseconds of processor time a reading. */
    private record Cost(double storing, double judging, double showing) {}

    @Override
    public List<Result> measure(Place place) throws Exception {
        // Once for the machine code: the first step would pay for it.
        cost(place, "growth-warm", TRAYS[0]);
        var costs = new ArrayList<Cost>();
        for (int trays : TRAYS) {
            costs.add(cost(place, "growth-" + trays, trays));
        }
        Cost small = costs.get(0);
        var results = new ArrayList<Result>();
        for (int i = 0; i < TRAYS.length; i++) {
            Cost cost = costs.get(i);
            String at = " at " + TRAYS[i] + " trays, beside 20";
            results.add(Result.atMost("storing a reading" + at, cost.storing, small.storing, BORNE, "us", ""));
            results.add(Result.atMost("judging a reading" + at, cost.judging, small.judging, BORNE, "us", ""));
            results.add(Result.atMost("showing a tray" + at, cost.showing, small.showing, BORNE, "us", ""));
        }
        return results;
    }

    private static Cost cost(Place place, String name, int trays) throws Exception {
        Season site = Season.site(place.folder(name), trays, "broker: built-in");
        double before = Processor.seconds();
        Season season = site.filledMinutes(MINUTES);
        double storing = Processor.seconds() - before;
        SiteFolder folder = season.folder();
        try (SiteStore store = Stores.toRead(folder)) {
            before = Processor.seconds();
            int times = Math.max(1, JUDGED / trays);
            for (int time = 0; time < times; time++) {
                Replay.run(folder, folder.crops(), List.of(), store.readings().source(folder.site()));
            }
            double judging = (Processor.seconds() - before) / times;
            long readings = season.readings();
            return new Cost(1e6 * storing / readings, 1e6 * judging / readings, 1e6 * showing(folder, store) / trays);
        }
    }

    /** What a look at the bench costs when nothing is new but the time. */
    private static double showing(SiteFolder folder, SiteStore store) {
        var last = store.readings().newestTime().orElseThrow();
        try (var watch = new Watch(folder, List.of(), change -> {})) {
            for (var probe : folder.site().probes()) {
                watch.accept(store.readings().readings(probe, last.minusSeconds(1_200), last));
            }
            watch.tick(last.plusSeconds(60));
            double before = Processor.seconds();
            int looks = 20;
            for (int look = 1; look <= looks; look++) {
                watch.tick(last.plusSeconds(60L + 60L * look));
            }
            return (Processor.seconds() - before) / looks;
        }
    }
}
