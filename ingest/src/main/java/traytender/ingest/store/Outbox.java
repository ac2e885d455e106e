package traytender.ingest.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Readings on their way to the long-term database, in {@code readings.db}. A reading enters in the transaction that stores it and
 * leaves when the server has taken it or refused it for good, so each is sent at least once, over any crash. New readings go first;
 * what was on disk before the target was named follows when nothing new waits.
 *
 * <p><b>Any thread may call.</b> One thread at a time sends.
 */
final class Outbox {
    private final Database database;
    private final AtomicLong waiting = new AtomicLong();
    private final AtomicLong history = new AtomicLong();
    private final AtomicLong refused = new AtomicLong();
    private final Semaphore arrived = new Semaphore(0);
    private volatile boolean open;

    Outbox(Database database) {
        this.database = database;
    }

    /** Readings go to this target from now on; another target than before gets all that is on disk, too. */
    void openFor(String target) {
        database.write(connection -> {
            if (!target.equals(target(connection))) {
                begin(connection, target);
            }
            return true;
        });
        count();
        open = true;
    }

    /** Readings go nowhere; a target named later gets all that is on disk then. */
    void shut() {
        open = false;
        var hadTarget = !database.read(Outbox::target).isEmpty();
        if (hadTarget) {
            database.write(connection -> clear(connection));
        }
    }

    private static String target(Connection connection) throws SQLException {
        try (var statement = connection.createStatement();
                var rows = statement.executeQuery("SELECT target FROM outbox_target")) {
            return rows.next() ? rows.getString(1) : "";
        }
    }

    private static void begin(Connection connection, String target) throws SQLException {
        clear(connection);
        try (var insert = connection.prepareStatement("INSERT INTO outbox_target (target) VALUES (?)");
                var statement = connection.createStatement()) {
            insert.setString(1, target);
            insert.executeUpdate();
            statement.executeUpdate(
                    "INSERT INTO outbox_history (probe, next_ms, last_ms)"
                            + " SELECT probe, min(first), max(last) FROM"
                            + " (SELECT probe, min(time_ms) AS first, max(time_ms) AS last FROM reading GROUP BY probe"
                            + " UNION ALL SELECT probe, min(first_ms), max(last_ms) FROM sealed GROUP BY probe) GROUP BY probe");
        }
    }

    private static boolean clear(Connection connection) throws SQLException {
        try (var statement = connection.createStatement()) {
            for (var table : List.of("outbox", "outbox_target", "outbox_history", "outbox_refused")) {
                statement.executeUpdate("DELETE FROM " + table);
            }
            return true;
        }
    }

    private void count() {
        waiting.set(number("SELECT count(*) FROM outbox"));
        refused.set(number("SELECT count(*) FROM outbox_refused"));
        history.set(number("SELECT count(*) FROM outbox_history h JOIN reading r"
                        + " ON r.probe = h.probe AND r.time_ms BETWEEN h.next_ms AND h.last_ms")
                + number("SELECT coalesce(sum(readings), 0) FROM outbox_history h JOIN sealed s"
                        + " ON s.probe = h.probe AND s.last_ms BETWEEN h.next_ms AND h.last_ms"));
    }

    private long number(String query) {
        return database.read(connection -> {
            try (var statement = connection.createStatement()) {
                return statement.executeQuery(query).getLong(1);
            }
        });
    }

    boolean isOpen() {
        return open;
    }

    /** Within the transaction that stores the readings. */
    static PreparedStatement insert(Connection connection) throws SQLException {
        return connection.prepareStatement("INSERT INTO outbox (probe, time_ms, raw, marks) VALUES (?, ?, ?, ?)");
    }

    /** After that transaction. */
    void entered(int readings) {
        waiting.addAndGet(readings);
        arrived.release();
    }

    /** Released with every group that enters. */
    Semaphore arrived() {
        return arrived;
    }

    /** The next readings to send, at most so many; empty when nothing waits. */
    Optional<OutboxParcel> next(int most) {
        return database.readAtOneMoment(connection -> {
            var queued = queued(connection, most);
            return queued.readings().isEmpty() ? history(connection, most) : Optional.of(queued);
        });
    }

    private static OutboxParcel queued(Connection connection, int most) throws SQLException {
        var readings = new ArrayList<RawReading>();
        var places = new ArrayList<Long>();
        try (var statement = connection.createStatement();
                var rows = statement.executeQuery("SELECT p.id, o.time_ms, o.raw, o.marks, o.place FROM outbox o"
                        + " JOIN probe p ON p.number = o.probe ORDER BY o.place LIMIT " + most)) {
            while (rows.next()) {
                readings.add(new RawReading(rows.getString(1), rows.getLong(2), rows.getDouble(3), rows.getInt(4)));
                places.add(rows.getLong(5));
            }
        }
        return new OutboxParcel(readings, places, 0);
    }

    /** A probe whose remaining history has been removed meanwhile gives an empty parcel, so that it is ticked off. */
    private static Optional<OutboxParcel> history(Connection connection, int most) throws SQLException {
        try (var statement = connection.createStatement();
                var rows = statement.executeQuery("SELECT h.probe, p.id, h.next_ms, h.last_ms FROM outbox_history h"
                        + " JOIN probe p ON p.number = h.probe ORDER BY h.probe LIMIT 1")) {
            if (!rows.next()) {
                return Optional.empty();
            }
            var readings = SqliteRows.next(
                    connection, rows.getInt(1), rows.getString(2), rows.getLong(3), rows.getLong(4) + 1, most);
            return Optional.of(new OutboxParcel(readings, List.of(), rows.getInt(1)));
        }
    }

    /** The server has taken the parcel, or refused these of it for good. */
    void done(OutboxParcel parcel, List<Refused> refusedOnes) {
        database.write(connection -> {
            for (var one : refusedOnes) {
                setAside(connection, one);
            }
            return parcel.isHistory() ? advanceHistory(connection, parcel) : delete(connection, parcel.places());
        });
        refused.addAndGet(refusedOnes.size());
        (parcel.isHistory() ? history : waiting).addAndGet(-parcel.readings().size());
    }

    /** A reading the server will never take, with its words. */
    record Refused(RawReading reading, String reason) {}

    private static void setAside(Connection connection, Refused one) throws SQLException {
        try (var insert = connection.prepareStatement(
                "INSERT OR REPLACE INTO outbox_refused"
                        + " (probe, time_ms, raw, marks, reason) VALUES ((SELECT number FROM probe WHERE id = ?), ?, ?, ?, ?)")) {
            insert.setString(1, one.reading().probe());
            insert.setLong(2, one.reading().timeMs());
            insert.setDouble(3, one.reading().raw());
            insert.setInt(4, one.reading().marks());
            insert.setString(5, one.reason());
            insert.executeUpdate();
        }
    }

    private static boolean delete(Connection connection, List<Long> places) throws SQLException {
        // Places are sent in order, so what lies between the first and the last of a parcel is the parcel.
        try (var delete = connection.prepareStatement("DELETE FROM outbox WHERE place BETWEEN ? AND ?")) {
            delete.setLong(1, places.get(0));
            delete.setLong(2, places.get(places.size() - 1));
            delete.executeUpdate();
            return true;
        }
    }

    private static boolean advanceHistory(Connection connection, OutboxParcel parcel) throws SQLException {
        var readings = parcel.readings();
        try (var update = connection.prepareStatement("UPDATE outbox_history SET next_ms = ? WHERE probe = ?");
                var delete = connection.prepareStatement(
                        "DELETE FROM outbox_history WHERE probe = ?" + " AND (next_ms > last_ms OR ?)")) {
            if (!readings.isEmpty()) {
                update.setLong(1, readings.get(readings.size() - 1).timeMs() + 1);
                update.setInt(2, parcel.historyOf());
                update.executeUpdate();
            }
            delete.setInt(1, parcel.historyOf());
            delete.setBoolean(2, readings.isEmpty());
            delete.executeUpdate();
            return true;
        }
    }

    /** The earliest time, in ms since 1970, of a reading that waits; {@code Long.MAX_VALUE} when none does. Looks at all of them. */
    long oldestWaitingMs() {
        return database.read(connection -> {
            try (var statement = connection.createStatement()) {
                return statement
                        .executeQuery("SELECT min(coalesce((SELECT min(time_ms) FROM outbox), " + Long.MAX_VALUE + "),"
                                + " coalesce((SELECT min(next_ms) FROM outbox_history), " + Long.MAX_VALUE + "))")
                        .getLong(1);
            }
        });
    }

    /** Readings that wait, history included. */
    long pending() {
        return Math.max(0, waiting.get()) + Math.max(0, history.get());
    }

    /** Readings that the server refused for good. */
    long refused() {
        return refused.get();
    }
}
