package traytender.ingest.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;

/**
 * Readings in {@code readings.db}:
 *
 * <pre>
 * probe                      reading (WITHOUT ROWID, in this order on disk)
 * number | id                probe | time_ms       | raw    | marks
 *      1 | T01-centre            1 | 1741939260000 | 1663.0 |     0
 *      2 | T01-edge-front        1 | 1741939320000 | 1664.0 |     0
 *                                2 | 1741939261000 |   18.3 |     8
 * </pre>
 *
 * One probe's readings lie side by side in order of time, so a stretch of one probe is one run over neighbouring pages, and the
 * newest reading is one seek. About 24 bytes a reading (measured, 5 M readings of 100 probes).
 */
public final class SqliteReadingStore implements ReadingStore {
    private static final String INSERT =
            "INSERT OR IGNORE INTO reading (probe, time_ms, raw, marks) VALUES (?, ?, ?, ?)";
    private static final String STRETCH =
            "SELECT time_ms, raw, marks FROM reading WHERE probe = ? AND time_ms >= ? AND time_ms < ? ORDER BY time_ms";
    private static final String NEWEST =
            "SELECT time_ms, raw, marks FROM reading WHERE probe = ? ORDER BY time_ms DESC LIMIT 1";
    /** Readings removed in one transaction; our choice, some tens of milliseconds. */
    private static final int REMOVED_AT_ONCE = 10_000;

    private final Database database;
    private final Meaning meaning;
    private final Outbox outbox;
    /** Probe id to number; a probe's number never changes, and only committed ones are here. */
    private final Map<String, Integer> numbers = new ConcurrentHashMap<>();

    private SqliteReadingStore(Database database, Meaning meaning) {
        this.database = database;
        this.meaning = meaning;
        this.outbox = new Outbox(database);
    }

    /** A store over a database that is open already. */
    static SqliteReadingStore over(Database database, Meaning meaning) {
        return new SqliteReadingStore(database, meaning);
    }

    /**
     * Opens {@code readings.db} in the folder, or makes it.
     *
     * @throws StoreException when it cannot be opened
     */
    public static SqliteReadingStore open(Path data, Meaning meaning) {
        var store = new SqliteReadingStore(Database.open(data.resolve("readings.db"), Schema.READINGS), meaning);
        try {
            // A seek for each probe goes down the whole tree: damage there shows before the first reading comes.
            store.extents();
            return store;
        } catch (RuntimeException e) {
            store.close();
            throw e;
        }
    }

    /** How far unfinished imports have come. */
    public ImportPositions importPositions() {
        return new ImportPositions(database);
    }

    /** Where readings wait that are sent on. */
    Outbox outbox() {
        return outbox;
    }

    @Override
    public AppendResult append(List<RawReading> readings) {
        if (readings.isEmpty()) {
            return new AppendResult(List.of(), 0);
        }
        var newNumbers = new HashMap<String, Integer>();
        var sendOn = outbox.isOpen();
        var result = database.write(connection -> {
            var fresh = insert(connection, readings, newNumbers);
            if (sendOn) {
                sendOn(connection, fresh, newNumbers);
            }
            return new AppendResult(fresh, readings.size() - fresh.size());
        });
        numbers.putAll(newNumbers);
        if (sendOn) {
            outbox.entered(result.stored());
        }
        return result;
    }

    private List<RawReading> insert(Connection connection, List<RawReading> readings, Map<String, Integer> newNumbers)
            throws SQLException {
        // Row by row: a JDBC batch does the same inside, and its exception hides what went wrong.
        try (var insert = connection.prepareStatement(INSERT)) {
            var fresh = new ArrayList<RawReading>(readings.size());
            for (var reading : readings) {
                bind(insert, reading, numberOf(connection, reading.probe(), newNumbers));
                if (insert.executeUpdate() > 0) {
                    fresh.add(reading);
                }
            }
            return fresh;
        }
    }

    private void sendOn(Connection connection, List<RawReading> fresh, Map<String, Integer> newNumbers)
            throws SQLException {
        try (var insert = Outbox.insert(connection)) {
            for (var reading : fresh) {
                bind(insert, reading, numberOf(connection, reading.probe(), newNumbers));
                insert.executeUpdate();
            }
        }
    }

    private static void bind(PreparedStatement insert, RawReading reading, int number) throws SQLException {
        insert.setInt(1, number);
        insert.setLong(2, reading.timeMs());
        insert.setDouble(3, reading.raw());
        insert.setInt(4, reading.marks());
    }

    private int numberOf(Connection connection, String probe, Map<String, Integer> newNumbers) throws SQLException {
        var known = numbers.get(probe);
        if (known == null) {
            known = newNumbers.get(probe);
        }
        if (known == null) {
            known = enter(connection, probe);
            newNumbers.put(probe, known);
        }
        return known;
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

    /** The probe's number, or null while it has no reading. */
    private @Nullable Integer numberOf(Connection connection, Probe probe) throws SQLException {
        var known = numbers.get(probe.id());
        if (known != null) {
            return known;
        }
        var found = lookUp(connection, probe.id());
        if (found != null) {
            numbers.put(probe.id(), found);
        }
        return found;
    }

    @Override
    public ReadingSource source(List<Probe> probes) {
        return (fromMs, toMs, consumer) -> database.read(connection -> {
            var cursors = new ArrayList<ProbeCursor>();
            for (var probe : probes) {
                var number = numberOf(connection, probe);
                if (number != null) {
                    cursors.add(new ProbeCursor(probe, number, fromMs));
                }
            }
            return new TimeMerge(connection, meaning, cursors, toMs).giveTo(consumer);
        });
    }

    @Override
    public List<Reading> readings(Probe probe, Instant from, Instant to) {
        return database.read(connection -> {
            var number = numberOf(connection, probe);
            return number == null ? List.of() : stretch(connection, probe, number, from, to);
        });
    }

    private List<Reading> stretch(Connection connection, Probe probe, int number, Instant from, Instant to)
            throws SQLException {
        try (var select = connection.prepareStatement(STRETCH)) {
            select.setInt(1, number);
            select.setLong(2, Times.ceilingMs(from));
            select.setLong(3, Times.ceilingMs(to));
            var readings = new ArrayList<Reading>();
            try (var rows = select.executeQuery()) {
                while (rows.next()) {
                    readings.add(meaning.of(
                            probe, new RawReading(probe.id(), rows.getLong(1), rows.getDouble(2), rows.getInt(3))));
                }
            }
            return readings;
        }
    }

    @Override
    public Optional<Reading> latest(Probe probe) {
        return database.read(connection -> {
            var number = numberOf(connection, probe);
            if (number == null) {
                return Optional.empty();
            }
            try (var select = connection.prepareStatement(NEWEST)) {
                select.setInt(1, number);
                var rows = select.executeQuery();
                return rows.next()
                        ? Optional.of(meaning.of(
                                probe, new RawReading(probe.id(), rows.getLong(1), rows.getDouble(2), rows.getInt(3))))
                        : Optional.empty();
            }
        });
    }

    @Override
    public Optional<Instant> newestTime() {
        return extents().stream().map(Extent::last).max(Instant::compareTo);
    }

    @Override
    public long count() {
        return database.read(connection -> {
            try (var statement = connection.createStatement()) {
                return statement.executeQuery("SELECT count(*) FROM reading").getLong(1);
            }
        });
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

    @Override
    public long removeBefore(Instant time) {
        var removed = 0L;
        for (var extent : extents()) {
            if (extent.first().isBefore(time)) {
                removed += removeBefore(extent.probe(), Times.ceilingMs(time));
            }
        }
        return removed;
    }

    private long removeBefore(String probe, long timeMs) {
        var removed = 0L;
        for (int gone = REMOVED_AT_ONCE; gone == REMOVED_AT_ONCE; removed += gone) {
            gone = database.write(connection -> removeSome(connection, probe, timeMs));
        }
        return removed;
    }

    private static int removeSome(Connection connection, String probe, long timeMs) throws SQLException {
        try (var delete =
                connection.prepareStatement("DELETE FROM reading WHERE probe = (SELECT number FROM probe WHERE id = ?1)"
                        + " AND time_ms IN (SELECT time_ms FROM reading WHERE probe = (SELECT number FROM probe WHERE id = ?1)"
                        + " AND time_ms < ?2 ORDER BY time_ms LIMIT " + REMOVED_AT_ONCE + ")")) {
            delete.setString(1, probe);
            delete.setLong(2, timeMs);
            return delete.executeUpdate();
        }
    }

    @Override
    public void close() {
        database.close();
    }
}
