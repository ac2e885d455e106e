package traytender.ingest.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Turns days that are over into sealed runs, a few at a time, each few in one transaction that writes the run and takes its readings
 * out of the table {@code reading}: after a kill at any moment every reading is in one of the two. Readings that came late for a
 * sealed day are put into its run the next time.
 *
 * @param zone whose days
 * @param beforeMs what is older is sealed; the beginning of a day
 */
record Sealer(ZoneId zone, long beforeMs) {
    /** Readings sealed in one transaction, or one day of one probe where that is more; our choice, about a tenth of a second. */
    private static final int AT_ONCE = 20_000;

    /** Seals up to the last midnight before the time. */
    static Sealer before(Instant time, ZoneId zone) {
        var day = LocalDate.ofInstant(time, zone).atStartOfDay(zone);
        return new Sealer(zone, day.toInstant().toEpochMilli());
    }

    /**
     * Seals some, within a transaction.
     *
     * @return how many readings went from the open table; 0 when there are no more to seal
     */
    int sealSome(Connection connection) throws SQLException {
        var sealed = 0;
        for (var day = next(connection); day != null; day = next(connection)) {
            sealed += seal(connection, day);
            if (sealed >= AT_ONCE) {
                break;
            }
        }
        return sealed;
    }

    private record Day(int number, String probe, long fromMs, long toMs) {}

    private @Nullable Day next(Connection connection) throws SQLException {
        try (var select = connection.prepareStatement("SELECT number, id, first FROM (SELECT number, id,"
                + " (SELECT min(time_ms) FROM reading WHERE probe = number) AS first FROM probe)"
                + " WHERE first < ? ORDER BY number LIMIT 1")) {
            select.setLong(1, beforeMs);
            var rows = select.executeQuery();
            if (!rows.next()) {
                return null;
            }
            var date = LocalDate.ofInstant(Instant.ofEpochMilli(rows.getLong(3)), zone);
            long toMs = startMs(date.plusDays(1));
            return new Day(rows.getInt(1), rows.getString(2), startMs(date), Math.min(toMs, beforeMs));
        }
    }

    private long startMs(LocalDate date) {
        return date.atStartOfDay(zone).toInstant().toEpochMilli();
    }

    private static int seal(Connection connection, Day day) throws SQLException {
        var runs = new SealedRuns(connection);
        var open = SqliteRows.open(connection, day.number(), day.probe(), day.fromMs(), day.toMs(), Integer.MAX_VALUE);
        var before = runs.runs(day.number(), day.probe(), day.fromMs(), day.toMs());
        var old = new ArrayList<RawReading>();
        before.forEach(run -> old.addAll(run.readings()));
        runs.delete(before);
        runs.insert(day.number(), JoinedStretch.join(old, Long.MAX_VALUE, Integer.MAX_VALUE, to -> open));
        remove(connection, day);
        return open.size();
    }

    private static void remove(Connection connection, Day day) throws SQLException {
        try (var delete =
                connection.prepareStatement("DELETE FROM reading WHERE probe = ? AND time_ms >= ? AND time_ms < ?")) {
            delete.setInt(1, day.number());
            delete.setLong(2, day.fromMs());
            delete.setLong(3, day.toMs());
            delete.executeUpdate();
        }
    }

    /**
     * Removes a probe's sealed readings before a time, within a transaction: whole runs, and the older part of one.
     *
     * @return how many went
     */
    static int removeBefore(Connection connection, int number, String probe, long timeMs) throws SQLException {
        var runs = new SealedRuns(connection);
        int removed = runs.deleteBefore(number, timeMs);
        for (var run : runs.runs(number, probe, timeMs, timeMs)) {
            var kept = run.readings().stream()
                    .filter(reading -> reading.timeMs() >= timeMs)
                    .toList();
            runs.delete(List.of(run));
            runs.insert(number, kept);
            removed += run.readings().size() - kept.size();
        }
        return removed;
    }
}
