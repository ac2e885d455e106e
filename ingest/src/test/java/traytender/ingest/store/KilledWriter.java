package traytender.ingest.store;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;

/**
 * A program of its own that stores numbered readings, an hour apart, says each number once it is on disk, seals days as they end, and
 * never ends by itself.
 */
final class KilledWriter {
    static final long HOUR_MS = 3_600_000;

    private KilledWriter() {}

    public static void main(String[] arguments) {
        try (var site = SiteStore.open(Path.of(arguments[0]), Bench.DOUBLED, Clock.systemUTC())) {
            var store = site.readings();
            var sealer = new Thread(() -> seal(site), "sealer");
            sealer.start();
            for (long i = store.count() / 2; ; i++) {
                store.append(
                        List.of(new RawReading("air", i * HOUR_MS, i, 0), new RawReading("medium", i * HOUR_MS, i, 0)));
                System.out.println(i);
            }
        }
    }

    private static void seal(SiteStore site) {
        while (true) {
            site.sealDays(ZoneOffset.UTC, Instant.MAX);
        }
    }
}
