package traytender.bench;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.util.List;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;

/** Bytes a reading takes on disk, beside the same rows in SQLite's plainest table. */
final class Disk implements Work {
    private static final int TRAYS = 20;

    @Override
    public List<Result> measure(Place place) throws Exception {
        Season season =
                Season.site(place.folder("disk"), TRAYS, "broker: built-in").filled(2);
        Path plain = place.folder("plain.db");
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + plain);
                var statement = connection.createStatement()) {
            statement.execute("ATTACH '" + season.path().resolve("data/readings.db") + "' AS ours");
            statement.execute(
                    "CREATE TABLE plain (probe INTEGER, time REAL, value REAL, PRIMARY KEY (probe, time)) WITHOUT ROWID");
            statement.execute("INSERT INTO plain SELECT probe, time_ms / 1e3, raw + 0.01 FROM ours.reading");
        }
        double ours = Files.size(season.path().resolve("data/readings.db")) / (double) season.readings();
        double theirs = Files.size(plain) / (double) season.readings();
        return List.of(Result.below(
                "disk, %,d readings".formatted(season.readings()),
                ours,
                theirs,
                4,
                "bytes a reading",
                "one row a reading; days are not sealed into columns yet"));
    }
}
