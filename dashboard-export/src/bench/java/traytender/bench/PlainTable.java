package traytender.bench;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import traytender.ingest.store.RawReading;

/**
 * Readings in a plain SQLite table, one row each, {@code WITHOUT ROWID}: the limit that disk, scan and night are held against. Probes
 * are numbered in the order in which they come.
 */
final class PlainTable implements AutoCloseable {
    private final Connection connection;
    private final Map<String, Integer> numbers = new HashMap<>();

    private PlainTable(Connection connection) {
        this.connection = connection;
    }

    static PlainTable at(Path file) throws SQLException {
        var table = new PlainTable(DriverManager.getConnection("jdbc:sqlite:" + file));
        try (var statement = table.connection.createStatement()) {
            statement.execute("PRAGMA synchronous=OFF");
            statement.execute("CREATE TABLE reading (probe INTEGER, time_ms INTEGER, raw REAL, marks INTEGER,"
                    + " PRIMARY KEY (probe, time_ms)) WITHOUT ROWID");
        }
        table.connection.setAutoCommit(false);
        return table;
    }

    void append(List<RawReading> readings) throws SQLException {
        try (var insert = connection.prepareStatement("INSERT INTO reading VALUES (?, ?, ?, ?)")) {
            for (RawReading reading : readings) {
                insert.setInt(1, numbers.computeIfAbsent(reading.probe(), id -> numbers.size() + 1));
                insert.setLong(2, reading.timeMs());
                insert.setDouble(3, reading.raw());
                insert.setInt(4, reading.marks());
                insert.executeUpdate();
            }
        }
        connection.commit();
    }

    @Override
    public void close() throws SQLException {
        connection.close();
    }
}
