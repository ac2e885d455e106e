package traytender.bench;

import java.nio.file.Path;
import java.util.List;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.dashboard.program.Stores;
import traytender.ingest.store.SiteStore;
import traytender.rules.Replay;

/** All rules over a season of 20 trays, beside reading the same rows with plain JDBC; then the same again in the same program. */
final class Replaying implements Work {
    static final int TRAYS = 20;

    @Override
    public List<Result> measure(Place place) throws Exception {
        Season season =
                Season.site(place.folder("season"), TRAYS, "broker: built-in").filled(place.days());
        double[] scan = Child.numbers(place.program(), PlainScan.class, season.plain());
        double[] replay = Child.numbers(place.program(), Replays.class, season.path());
        String work = "replay of %d trays, %d days, %,d readings".formatted(TRAYS, place.days(), season.readings());
        return List.of(
                Result.atMost(
                        work,
                        replay[0],
                        scan[0],
                        2.5,
                        "s",
                        "%.1f processor seconds, beside %.1f; each tray is judged each minute: states, drying fit and rules, see profile.md"
                                .formatted(replay[2], scan[1])),
                Result.atMost(
                        work + ", again in the same program",
                        replay[1],
                        scan[0],
                        1,
                        "s",
                        "a replay whole: forecasts and what is told depend on limits, and nothing is kept between two replays"));
    }

    /** The program's own way, in a process of its own: seconds of the first replay, of the second, processor seconds of the first. */
    static final class Replays {
        private Replays() {}

        public static void main(String[] arguments) {
            SiteFolder folder = SiteReader.read(Path.of(arguments[0]));
            try (SiteStore store = Stores.toRead(folder)) {
                double before = Processor.seconds();
                double first = seconds(folder, store);
                double used = Processor.seconds() - before;
                System.out.println(first + " " + seconds(folder, store) + " " + used);
            }
        }

        private static double seconds(SiteFolder folder, SiteStore store) {
            long start = System.nanoTime();
            Replay.run(
                    folder,
                    folder.crops(),
                    store.journal().entries(),
                    store.readings().source(folder.site()));
            return (System.nanoTime() - start) / 1e9;
        }
    }
}
