package traytender.ingest.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.zip.DataFormatException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/**
 * The table {@code sealed} on one connection, within one transaction where several answers must fit together. Runs of one probe do
 * not overlap, so their last times are in the order of their first ones. <b>Not for several threads.</b>
 */
final class SealedRuns {
    private static final String FROM = "SELECT number, first_ms, last_ms, readings, content FROM sealed"
            + " WHERE probe = ? AND last_ms >= ? AND first_ms < ? ORDER BY last_ms";

    private final Connection connection;

    SealedRuns(Connection connection) {
        this.connection = connection;
    }

    /** A row. */
    record Row(long number, List<RawReading> readings) {}

    /**
     * A probe's sealed readings in order of time, in whole runs.
     *
     * @param id of the probe with that number
     * @param wanted fewer come only when there are no more before {@code toMs}; more may come
     */
    List<RawReading> next(int probe, String id, long fromMs, long toMs, int wanted) throws SQLException {
        var found = new ArrayList<RawReading>();
        try (var select = connection.prepareStatement(FROM)) {
            bind(select, probe, fromMs, toMs);
            var rows = select.executeQuery();
            while (found.size() < wanted && rows.next()) {
                for (var reading : row(id, rows).readings()) {
                    if (reading.timeMs() >= fromMs && reading.timeMs() < toMs) {
                        found.add(reading);
                    }
                }
            }
        }
        return found;
    }

    /** The runs that have a time in the range, whole. */
    List<Row> runs(int probe, String id, long fromMs, long toMs) throws SQLException {
        try (var select = connection.prepareStatement(FROM)) {
            bind(select, probe, fromMs, toMs);
            var found = new ArrayList<Row>();
            var rows = select.executeQuery();
            while (rows.next()) {
                found.add(row(id, rows));
            }
            return found;
        }
    }

    private static void bind(PreparedStatement select, int probe, long fromMs, long toMs) throws SQLException {
        select.setInt(1, probe);
        select.setLong(2, fromMs);
        select.setLong(3, toMs);
    }

    private static Row row(String id, ResultSet row) throws SQLException {
        try {
            return new Row(row.getLong(1), SealedRun.readings(id, row.getInt(4), row.getBytes(5)));
        } catch (DataFormatException e) {
            throw new SQLiteException(
                    "sealed run " + row.getLong(1) + " of " + id + ": " + e.getMessage(),
                    SQLiteErrorCode.SQLITE_CORRUPT);
        }
    }

    /** Writes a probe's readings as one run, or several where they are many. */
    void insert(int probe, List<RawReading> readings) throws SQLException {
        try (var insert = connection.prepareStatement(
                "INSERT INTO sealed (probe, first_ms, last_ms, readings, content) VALUES (?, ?, ?, ?, ?)")) {
            int parts = (readings.size() + SealedRun.MOST - 1) / SealedRun.MOST;
            for (int i = 0; i < parts; i++) {
                var part = readings.subList(
                        (int) ((long) readings.size() * i / parts), (int) ((long) readings.size() * (i + 1) / parts));
                insert.setInt(1, probe);
                insert.setLong(2, part.get(0).timeMs());
                insert.setLong(3, part.get(part.size() - 1).timeMs());
                insert.setInt(4, part.size());
                insert.setBytes(5, SealedRun.content(part));
                insert.executeUpdate();
            }
        }
    }

    void delete(List<Row> runs) throws SQLException {
        try (var delete = connection.prepareStatement("DELETE FROM sealed WHERE number = ?")) {
            for (var run : runs) {
                delete.setLong(1, run.number());
                delete.executeUpdate();
            }
        }
    }

    /**
     * Deletes a probe's runs that are wholly before a time.
     *
     * @return how many readings were in them
     */
    int deleteBefore(int probe, long timeMs) throws SQLException {
        try (var count = connection.prepareStatement(
                        "SELECT coalesce(sum(readings), 0) FROM sealed WHERE probe = ? AND last_ms < ?");
                var delete = connection.prepareStatement("DELETE FROM sealed WHERE probe = ? AND last_ms < ?")) {
            count.setInt(1, probe);
            count.setLong(2, timeMs);
            int readings = count.executeQuery().getInt(1);
            delete.setInt(1, probe);
            delete.setLong(2, timeMs);
            delete.executeUpdate();
            return readings;
        }
    }

    /** From this time on, in ms since 1970, nothing is sealed; {@code Long.MIN_VALUE} when nothing is at all. */
    long endMs() throws SQLException {
        try (var statement = connection.createStatement()) {
            var rows = statement.executeQuery("SELECT max(last) FROM (SELECT (SELECT max(last_ms) FROM sealed"
                    + " WHERE probe = p.number) AS last FROM probe p)");
            long last = rows.getLong(1);
            return rows.wasNull() ? Long.MIN_VALUE : last + 1;
        }
    }

    /** Looks up single times; keeps what it has read, so it is for one transaction. */
    final class Taken {
        private final Map<Integer, Known> known = new HashMap<>();

        private record Known(long fromMs, long toMs, Set<Long> times) {}

        /** Whether there is a sealed reading of that probe and time. */
        boolean has(int probe, String id, long timeMs) throws SQLException {
            var here = known.get(probe);
            if (here == null || timeMs < here.fromMs() || timeMs >= here.toMs()) {
                here = around(probe, id, timeMs);
                known.put(probe, here);
            }
            return here.times().contains(timeMs);
        }

        private Known around(int probe, String id, long timeMs) throws SQLException {
            var runs = runs(probe, id, timeMs, timeMs + 1);
            if (runs.isEmpty()) {
                return new Known(timeMs, timeMs + 1, Set.of());
            }
            var readings = runs.get(0).readings();
            var times = new HashSet<Long>();
            readings.forEach(reading -> times.add(reading.timeMs()));
            return new Known(
                    readings.get(0).timeMs(), readings.get(readings.size() - 1).timeMs() + 1, times);
        }
    }
}
