package traytender.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.dashboard.program.Stores;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SiteStore;

/** Bytes a reading takes on disk, beside the same rows in SQLite's plainest table. */
final class Disk implements Work {
    private static final int TRAYS = 20;
    private static final int DAYS = 4;

    @Override
    public List<Result> measure(Place place) throws Exception {
        Season season =
                Season.site(place.folder("disk"), TRAYS, "broker: built-in").filled(DAYS);
        try (SiteStore store = Stores.toWrite(season.folder(), Clock.systemUTC())) {
            // A reading three days on: by then every day before it is sealed.
            var later = Season.FIRST.plus(Duration.ofDays(DAYS + 3));
            store.readings().append(List.of(new RawReading(Season.id(1, 0), later.toEpochMilli(), 2_000, 0)));
            store.sealDays(season.folder().site().timezone(), later);
        }
        Path plain = place.folder("plain.db");
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + plain);
                var statement = connection.createStatement()) {
            statement.execute("ATTACH '" + season.plain() + "' AS same");
            statement.execute(
                    "CREATE TABLE plain (probe INTEGER, time REAL, value REAL, PRIMARY KEY (probe, time)) WITHOUT ROWID");
            statement.execute("INSERT INTO plain SELECT probe, time_ms / 1e3, raw + 0.01 FROM same.reading");
        }
        double ours = Files.size(season.path().resolve("data/readings.db")) / (double) season.readings();
        double theirs = Files.size(plain) / (double) season.readings();
        return List.of(Result.below(
                "disk, %,d readings of sealed days".formatted(season.readings()),
                ours,
                theirs,
                4,
                "bytes a reading",
                "the whole file; times with 40 ms of scatter"));
    }
}
