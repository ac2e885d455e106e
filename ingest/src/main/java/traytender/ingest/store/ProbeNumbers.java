package traytender.ingest.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/** Probe ids and their small numbers in {@code readings.db}. A probe's number never changes. <b>Any thread may call.</b> */
final class ProbeNumbers {
    /** Only committed ones are here. */
    private final Map<String, Integer> known = new ConcurrentHashMap<>();

    /** The probe's number, or null while it has no reading. */
    @Nullable
    Integer find(Connection connection, String probe) throws SQLException {
        var number = known.get(probe);
        if (number == null) {
            number = lookUp(connection, probe);
            if (number != null) {
                known.put(probe, number);
            }
        }
        return number;
    }

    /**
     * The probe's number; entered if it has none.
     *
     * @param entered what this transaction has entered so far; given to {@link #committed} after it
     */
    int enter(Connection connection, String probe, Map<String, Integer> entered) throws SQLException {
        var number = known.get(probe);
        if (number == null) {
            number = entered.get(probe);
        }
        if (number == null) {
            number = enter(connection, probe);
            entered.put(probe, number);
        }
        return number;
    }

    void committed(Map<String, Integer> entered) {
        known.putAll(entered);
    }

    private static int enter(Connection connection, String probe) throws SQLException {
        try (var insert = connection.prepareStatement("INSERT OR IGNORE INTO probe (id) VALUES (?)")) {
            insert.setString(1, probe);
            insert.executeUpdate();
        }
        var number = lookUp(connection, probe);
        if (number == null) {
            throw new IllegalStateException("probe " + probe + " was entered and is not there");
        }
        return number;
    }

    private static @Nullable Integer lookUp(Connection connection, String probe) throws SQLException {
        try (var select = connection.prepareStatement("SELECT number FROM probe WHERE id = ?")) {
            select.setString(1, probe);
            var rows = select.executeQuery();
            return rows.next() ? rows.getInt(1) : null;
        }
    }
}
