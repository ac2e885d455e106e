package traytender.ingest.store;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The stretch of history that stands in {@code readings.db}: sealed days, and row by row what is not sealed yet or came late. */
final class SqliteRows implements Stretch {
    private static final String NEXT = "SELECT time_ms, raw, marks FROM reading"
            + " WHERE probe = ? AND time_ms >= ? AND time_ms < ? ORDER BY time_ms LIMIT ?";
    private static final String LAST =
            "SELECT time_ms, raw, marks FROM reading WHERE probe = ? ORDER BY time_ms DESC LIMIT 1";
    private static final String LAST_SEALED =
            "SELECT last_ms FROM sealed WHERE probe = ? ORDER BY last_ms DESC LIMIT 1";

    private final Database database;
    private final ProbeNumbers numbers;

    SqliteRows(Database database, ProbeNumbers numbers) {
        this.database = database;
        this.numbers = numbers;
    }

    @Override
    public List<RawReading> next(String probe, long fromMs, long toMs, int wanted) {
        return database.readAtOneMoment(connection -> {
            var number = numbers.find(connection, probe);
            return number == null ? List.of() : next(connection, number, probe, fromMs, toMs, wanted);
        });
    }

    /** The same within a transaction. */
    static List<RawReading> next(Connection connection, int number, String probe, long fromMs, long toMs, int wanted)
            throws SQLException {
        var sealed = new SealedRuns(connection).next(number, probe, fromMs, toMs, wanted);
        return JoinedStretch.join(sealed, toMs, wanted, to -> open(connection, number, probe, fromMs, to, wanted));
    }

    /** Readings that are not sealed. */
    static List<RawReading> open(Connection connection, int number, String probe, long fromMs, long toMs, int most)
            throws SQLException {
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
    }

    @Override
    public Optional<RawReading> last(String probe) {
        return database.readAtOneMoment(connection -> {
            var number = numbers.find(connection, probe);
            if (number == null) {
                return Optional.empty();
            }
            try (var select = connection.prepareStatement(LAST);
                    var selectSealed = connection.prepareStatement(LAST_SEALED)) {
                select.setInt(1, number);
                var rows = select.executeQuery();
                var open = rows.next() ? Optional.of(reading(probe, rows)) : Optional.<RawReading>empty();
                selectSealed.setInt(1, number);
                var sealed = selectSealed.executeQuery();
                var isSealed = sealed.next() && (open.isEmpty() || open.get().timeMs() < sealed.getLong(1));
                return isSealed
                        ? new SealedRuns(connection)
                                .next(number, probe, sealed.getLong(1), Long.MAX_VALUE, 1).stream()
                                        .findFirst()
                        : open;
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
                    var rows = statement.executeQuery("""
                            SELECT id, min(coalesce(open_first, first), coalesce(first, open_first)),
                              max(coalesce(open_last, last), coalesce(last, open_last))
                            FROM (SELECT id,
                              (SELECT min(time_ms) FROM reading WHERE probe = p.number) AS open_first,
                              (SELECT max(time_ms) FROM reading WHERE probe = p.number) AS open_last,
                              (SELECT first_ms FROM sealed WHERE probe = p.number ORDER BY last_ms LIMIT 1) AS first,
                              (SELECT max(last_ms) FROM sealed WHERE probe = p.number) AS last
                              FROM probe p)
                            ORDER BY id""")) {
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
