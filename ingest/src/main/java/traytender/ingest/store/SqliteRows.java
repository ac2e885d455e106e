package traytender.ingest.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The stretch of history that stands in {@code readings.db} row by row. */
final class SqliteRows implements Stretch {
    private static final String NEXT = "SELECT time_ms, raw, marks FROM reading"
            + " WHERE probe = ? AND time_ms >= ? AND time_ms < ? ORDER BY time_ms LIMIT ?";
    private static final String LAST =
            "SELECT time_ms, raw, marks FROM reading WHERE probe = ? ORDER BY time_ms DESC LIMIT 1";

    private final Database database;
    private final ProbeNumbers numbers;

    SqliteRows(Database database, ProbeNumbers numbers) {
        this.database = database;
        this.numbers = numbers;
    }

    @Override
    public List<RawReading> next(String probe, long fromMs, long toMs, int most) {
        return database.read(connection -> {
            var number = numbers.find(connection, probe);
            if (number == null) {
                return List.of();
            }
            try (var select = connection.prepareStatement(NEXT)) {
                select.setInt(1, number);
                select.setLong(2, fromMs);
                select.setLong(3, toMs);
                select.setInt(4, most);
                var readings = new ArrayList<RawReading>();
                var rows = select.executeQuery();
                while (rows.next()) {
                    readings.add(reading(probe, rows));
                }
                return readings;
            }
        });
    }

    @Override
    public Optional<RawReading> last(String probe) {
        return database.read(connection -> {
            var number = numbers.find(connection, probe);
            if (number == null) {
                return Optional.empty();
            }
            try (var select = connection.prepareStatement(LAST)) {
                select.setInt(1, number);
                var rows = select.executeQuery();
                return rows.next() ? Optional.of(reading(probe, rows)) : Optional.empty();
            }
        });
    }

    private static RawReading reading(String probe, ResultSet row) throws SQLException {
        return new RawReading(probe, row.getLong(1), row.getDouble(2), row.getInt(3));
    }

    /** One seek for each end; {@code GROUP BY} would run over every reading. */
    @Override
    public List<Extent> extents() {
        return database.read(connection -> {
            try (var statement = connection.createStatement();
                    var rows = statement.executeQuery("SELECT id,"
                            + " (SELECT min(time_ms) FROM reading WHERE probe = number) AS first,"
                            + " (SELECT max(time_ms) FROM reading WHERE probe = number) AS last"
                            + " FROM probe ORDER BY id")) {
                var extents = new ArrayList<Extent>();
                while (rows.next()) {
                    var first = Instant.ofEpochMilli(rows.getLong(2));
                    // A probe whose readings have all been removed keeps its number.
                    if (!rows.wasNull()) {
                        extents.add(new Extent(rows.getString(1), first, Instant.ofEpochMilli(rows.getLong(3))));
                    }
                }
                return extents;
            }
        });
    }
}
