package traytender.ingest.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import traytender.config.alert.Alert;
import traytender.config.journal.JournalEntry;

/**
 * The grower's journal and the alerts, in {@code journal.db}. Nothing is deleted: what is corrected or withdrawn stays, marked.
 *
 * <p><b>Any thread may call.</b> Every method throws {@link StoreException} when the disk or the database fails, and has then
 * changed nothing.
 */
public final class JournalStore implements AutoCloseable {
    private final Database database;

    private JournalStore(Database database) {
        this.database = database;
    }

    /** Opens {@code journal.db} in the folder, or makes it. */
    public static JournalStore open(Path data) {
        return new JournalStore(Database.open(data.resolve("journal.db"), Schema.JOURNAL));
    }

    /**
     * Keeps an entry; an identical one changes nothing, also when it has been corrected or withdrawn since.
     *
     * @return whether it was not there before
     */
    public boolean add(JournalEntry entry) {
        return addAll(List.of(entry)) == 1;
    }

    /** Keeps entries as one group, each as {@link #add} does, and answers how many were not there before. */
    public int addAll(List<JournalEntry> entries) {
        return database.write(connection -> {
            var added = 0;
            for (var entry : entries) {
                added += EntryRows.insert(connection, entry);
            }
            return added;
        });
    }

    /**
     * Keeps entries as one group, each of which counts from now on, also where an identical one had been withdrawn.
     *
     * @return them with their numbers, in the same order
     */
    public List<KeptEntry> write(List<JournalEntry> entries) {
        return database.write(connection -> write(connection, entries));
    }

    static List<KeptEntry> write(Connection connection, List<JournalEntry> entries) throws SQLException {
        var kept = new ArrayList<KeptEntry>();
        for (var entry : entries) {
            EntryRows.insert(connection, entry);
            EntryRows.makeCount(connection, entry);
            var number = EntryRows.numberOf(connection, entry);
            kept.addAll(EntryRows.kept(connection, "number = " + number));
        }
        return kept;
    }

    /** The entry of that number, whether it counts or not. */
    public Optional<KeptEntry> find(long number) {
        return database.read(connection -> EntryRows.kept(connection, "number = " + number)).stream()
                .findFirst();
    }

    /** Every entry ever written, in order of time, and as they were written where times are equal. */
    public List<KeptEntry> kept() {
        return database.read(connection -> EntryRows.kept(connection, "1 = 1"));
    }

    /**
     * Takes entries out of what counts, or brings them back, as one group; they stay on record.
     *
     * @return how many of them have changed; a corrected one does not
     */
    public int setWithdrawn(List<Long> numbers, boolean withdrawn) {
        return database.write(connection -> {
            int changed = 0;
            for (long number : numbers) {
                changed += EntryRows.setWithdrawn(connection, number, withdrawn);
            }
            return changed;
        });
    }

    /**
     * Puts an entry in the place of a wrong one, which stays on record.
     *
     * @return false, with nothing changed, when the wrong entry is not there
     */
    public boolean correct(JournalEntry wrong, JournalEntry right) {
        return database.write(connection -> {
            var wrongNumber = EntryRows.numberOf(connection, wrong);
            if (wrongNumber == null) {
                return false;
            }
            EntryRows.insert(connection, right);
            EntryRows.makeCount(connection, right);
            EntryRows.replace(connection, wrongNumber, right);
            return true;
        });
    }

    /**
     * Takes an entry out of what counts; it stays on record.
     *
     * @return whether it was there
     */
    public boolean withdraw(JournalEntry entry) {
        return database.write(connection -> EntryRows.withdraw(connection, entry)) > 0;
    }

    /** The entries that count, in order of time, and as they were written where times are equal. */
    public List<JournalEntry> entries() {
        return database.read(connection -> EntryRows.select(connection, "withdrawn = 0 AND replaced_by IS NULL"));
    }

    /** The entries that were corrected or withdrawn, in the same order. */
    public List<JournalEntry> pastEntries() {
        return database.read(connection -> EntryRows.select(connection, "withdrawn = 1 OR replaced_by IS NOT NULL"));
    }

    /** What the grower did about alerts. */
    public ActStore acts() {
        return new ActStore(database);
    }

    /** What was sent to whom. */
    public NoticeStore notices() {
        return new NoticeStore(database);
    }

    /** What the site's crop files were. */
    public CropFileVersions cropFiles() {
        return new CropFileVersions(database);
    }

    /** Keeps an alert, in place of what was kept under its id. */
    public void saveAlert(Alert alert) {
        database.write(connection -> AlertRows.save(connection, alert));
    }

    /** Keeps alerts as one group, each as {@link #saveAlert} does. */
    public void saveAlerts(List<Alert> alerts) {
        database.write(connection -> {
            var saved = 0;
            for (var alert : alerts) {
                saved += AlertRows.save(connection, alert);
            }
            return saved;
        });
    }

    /** Takes back an alert that later knowledge shows was never due; it stays on record. */
    public void withdrawAlert(String id) {
        database.write(connection -> AlertRows.update(connection, "UPDATE alert SET withdrawn = 1 WHERE id = ?", id));
    }

    /** Every alert not withdrawn, in order of opening, and of id where they opened together. */
    public List<Alert> alerts() {
        return database.read(connection -> AlertRows.select(connection, "withdrawn = 0"));
    }

    /** The alerts that have not closed, in the same order. */
    public List<Alert> openAlerts() {
        return database.read(connection -> AlertRows.select(connection, "withdrawn = 0 AND closed IS NULL"));
    }

    /** The alerts that were taken back, in the same order. */
    public List<Alert> withdrawnAlerts() {
        return database.read(connection -> AlertRows.select(connection, "withdrawn = 1"));
    }

    /** Remembers that the grower has seen an alert; the first time stays. */
    public void markSeen(String alertId, Instant when) {
        database.write(connection -> AlertRows.update(
                connection, "UPDATE alert SET seen = coalesce(seen, '" + when + "') WHERE id = ?", alertId));
    }

    /** Ids of the alerts the grower has seen. */
    public Set<String> seenAlerts() {
        return database.read(JournalStore::seen);
    }

    private static Set<String> seen(Connection connection) throws SQLException {
        try (var statement = connection.createStatement();
                var rows = statement.executeQuery("SELECT id FROM alert WHERE seen IS NOT NULL")) {
            var seen = new ArrayList<String>();
            while (rows.next()) {
                seen.add(rows.getString(1));
            }
            return new TreeSet<>(seen);
        }
    }

    @Override
    public void close() {
        database.close();
    }
}
