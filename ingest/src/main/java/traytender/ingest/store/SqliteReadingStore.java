package traytender.ingest.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
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
 * newest reading is one seek. About 24 bytes a reading (measured, 5 M readings of 100 probes). Days that are over are sealed into runs of
 * columns ({@link SealedRun}).
 */
public final class SqliteReadingStore implements ReadingStore {
    private static final String INSERT =
            "INSERT OR IGNORE INTO reading (probe, time_ms, raw, marks) VALUES (?, ?, ?, ?)";
    /** Readings removed in one transaction; our choice, some tens of milliseconds. */
    private static final int REMOVED_AT_ONCE = 10_000;

    /** No time that readings are removed before. */
    private static final long UNREAD = Long.MIN_VALUE + 1;

    private final Database database;
    private final Outbox outbox;
    private final ProbeNumbers numbers = new ProbeNumbers();
    private final Stretch stretch;
    private final ReadingHistory history;
    private final AtomicLong removedBeforeMs = new AtomicLong(UNREAD);

    /** From this time on nothing is sealed. It is moved on before the sealing: too late costs a look, too early a repeat unseen. */
    private final AtomicLong sealedEndMs = new AtomicLong(Long.MIN_VALUE);

    private SqliteReadingStore(Database database, Meaning meaning) {
        this.database = database;
        this.outbox = new Outbox(database);
        this.stretch = new SqliteRows(database, numbers);
        this.history = new StretchHistory(stretch, meaning);
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
            store.sealedEndMs.set(store.database.read(connection -> new SealedRuns(connection).endMs()));
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

    /** All that this database has. */
    Stretch stretch() {
        return stretch;
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
        numbers.committed(newNumbers);
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
            var sealed = new SealedRuns(connection).new Taken();
            for (var reading : readings) {
                int number = numbers.enter(connection, reading.probe(), newNumbers);
                bind(insert, reading, number);
                boolean isSealed =
                        reading.timeMs() < sealedEndMs.get() && sealed.has(number, reading.probe(), reading.timeMs());
                if (!isSealed && insert.executeUpdate() > 0) {
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
                bind(insert, reading, numbers.enter(connection, reading.probe(), newNumbers));
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

    @Override
    public ReadingSource source(List<Probe> probes) {
        return history.source(probes);
    }

    @Override
    public List<Reading> readings(Probe probe, Instant from, Instant to) {
        return history.readings(probe, from, to);
    }

    @Override
    public Optional<Reading> latest(Probe probe) {
        return history.latest(probe);
    }

    @Override
    public List<Extent> extents() {
        return history.extents();
    }

    @Override
    public Optional<Instant> newestTime() {
        return extents().stream().map(Extent::last).max(Instant::compareTo);
    }

    @Override
    public long count() {
        return database.read(connection -> {
            try (var statement = connection.createStatement()) {
                return statement
                        .executeQuery("SELECT (SELECT count(*) FROM reading)"
                                + " + (SELECT coalesce(sum(readings), 0) FROM sealed)")
                        .getLong(1);
            }
        });
    }

    /**
     * Seals the days that were over at a time, a little at a time, so that appends are never held up for long; then gives room
     * back to the disk where there is much of it.
     *
     * @param zone whose days
     * @return how many readings were sealed
     */
    long sealBefore(Instant time, ZoneId zone) {
        var sealer = Sealer.before(time, zone);
        sealedEndMs.accumulateAndGet(sealer.beforeMs(), Math::max);
        long sealed = 0;
        for (int more = database.write(sealer::sealSome); more > 0; more = database.write(sealer::sealSome)) {
            sealed += more;
        }
        if (sealed > 0) {
            database.shrink();
        }
        return sealed;
    }

    /** Before this time, in ms since 1970, readings may have been removed; {@code Long.MIN_VALUE} when none ever were. */
    long removedBeforeMs() {
        return removedBeforeMs.updateAndGet(known -> known != UNREAD ? known : readRemovedBefore());
    }

    private long readRemovedBefore() {
        return database.read(connection -> {
            try (var statement = connection.createStatement()) {
                var rows = statement.executeQuery("SELECT max(before_ms) FROM removed");
                var before = rows.getLong(1);
                return rows.wasNull() ? Long.MIN_VALUE : before;
            }
        });
    }

    /** Notes that what is older may be missing here. */
    void noteRemovedBefore(long timeMs) {
        if (timeMs <= removedBeforeMs()) {
            return;
        }
        database.write(connection -> {
            try (var statement = connection.createStatement();
                    var insert = connection.prepareStatement("INSERT INTO removed (before_ms) VALUES (?)")) {
                statement.executeUpdate("DELETE FROM removed");
                insert.setLong(1, timeMs);
                return insert.executeUpdate();
            }
        });
        removedBeforeMs.set(timeMs);
    }

    @Override
    public long removeBefore(Instant time) {
        var older = extents().stream()
                .filter(extent -> extent.first().isBefore(time))
                .toList();
        if (older.isEmpty()) {
            return 0;
        }
        noteRemovedBefore(Times.ceilingMs(time));
        return older.stream()
                .mapToLong(extent -> removeBefore(extent.probe(), Times.ceilingMs(time)))
                .sum();
    }

    private long removeBefore(String probe, long timeMs) {
        long removed = database.write(connection -> {
            var number = numbers.find(connection, probe);
            return number == null ? 0 : Sealer.removeBefore(connection, number, probe, timeMs);
        });
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
