package traytender.ingest.store;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;

/** A program of its own that stores numbered readings, says each number once it is on disk, and never ends by itself. */
final class KilledWriter {
    private KilledWriter() {}

    public static void main(String[] arguments) {
        try (var site = SiteStore.open(Path.of(arguments[0]), Bench.DOUBLED, Clock.systemUTC())) {
            var store = site.readings();
            for (long i = store.count(); ; i++) {
                store.append(List.of(new RawReading("air", i, i, 0), new RawReading("medium", i, i, 0)));
                System.out.println(i);
            }
        }
    }
}
