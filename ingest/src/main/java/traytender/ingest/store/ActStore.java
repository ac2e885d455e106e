package traytender.ingest.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.Act.Mark;
import traytender.ingest.store.StoreException.Trouble;

/**
 * What the grower did about alerts, in {@code journal.db}. What is undone stays on record. <b>Any thread may call.</b> Every method
 * throws {@link StoreException} when the disk or the database fails, and has then changed nothing.
 */
public final class ActStore {
    private final Database database;

    ActStore(Database database) {
        this.database = database;
    }

    /**
     * Keeps an act and the journal entries that come with it, as one group.
     *
     * @param until from when on the alerts ask again; null for never
     */
    public Act write(Mark mark, Instant at, @Nullable Instant until, List<String> alerts, List<JournalEntry> entries) {
        return database.write(connection -> {
            List<Long> numbers = JournalStore.write(connection, entries).stream()
                    .map(KeptEntry::number)
                    .toList();
            long number = insert(connection, mark, at, until);
            for (String alert : alerts) {
                link(connection, "INSERT OR IGNORE INTO act_alert (act, alert) VALUES (?, ?)", number, alert);
            }
            for (long entry : numbers) {
                link(connection, "INSERT OR IGNORE INTO act_entry (act, entry) VALUES (?, ?)", number, entry);
            }
            return new Act(number, mark, at, until, alerts, numbers, false);
        });
    }

    private static long insert(Connection connection, Mark mark, Instant at, @Nullable Instant until)
            throws SQLException {
        try (var insert =
                connection.prepareStatement("INSERT INTO act (mark, at, until) VALUES (?, ?, ?) RETURNING number")) {
            insert.setString(1, mark.word());
            insert.setString(2, at.toString());
            insert.setString(3, until == null ? null : until.toString());
            return insert.executeQuery().getLong(1);
        }
    }

    private static void link(Connection connection, String sql, long act, Object other) throws SQLException {
        try (var insert = connection.prepareStatement(sql)) {
            insert.setLong(1, act);
            insert.setObject(2, other);
            insert.executeUpdate();
        }
    }

    /**
     * Takes an act back, and the journal entries written with it.
     *
     * @return it as it was; empty when there is none of that number, or it was undone before
     */
    public Optional<Act> undo(long number) {
        return database.write(connection -> {
            Optional<Act> found = select(connection, "number = " + number + " AND undone = 0").stream()
                    .findFirst();
            if (found.isPresent()) {
                try (var update = connection.prepareStatement("UPDATE act SET undone = 1 WHERE number = ?")) {
                    update.setLong(1, number);
                    update.executeUpdate();
                }
                for (long entry : found.get().entries()) {
                    EntryRows.setWithdrawn(connection, entry, true);
                }
            }
            return found;
        });
    }

    /** Every act, in the order they were done. */
    public List<Act> acts() {
        return database.read(connection -> select(connection, "1 = 1"));
    }

    private static List<Act> select(Connection connection, String which) throws SQLException {
        Map<Long, List<String>> alerts = new HashMap<>();
        Map<Long, List<Long>> entries = new HashMap<>();
        try (var statement = connection.createStatement()) {
            try (var rows = statement.executeQuery("SELECT act, alert FROM act_alert ORDER BY act, alert")) {
                while (rows.next()) {
                    alerts.computeIfAbsent(rows.getLong(1), act -> new ArrayList<>())
                            .add(rows.getString(2));
                }
            }
            try (var rows = statement.executeQuery("SELECT act, entry FROM act_entry ORDER BY act, entry")) {
                while (rows.next()) {
                    entries.computeIfAbsent(rows.getLong(1), act -> new ArrayList<>())
                            .add(rows.getLong(2));
                }
            }
            var acts = new ArrayList<Act>();
            try (var rows = statement.executeQuery(
                    "SELECT number, mark, at, until, undone FROM act WHERE " + which + " ORDER BY number")) {
                while (rows.next()) {
                    long number = rows.getLong(1);
                    String until = rows.getString(4);
                    acts.add(new Act(
                            number,
                            mark(rows.getString(2)),
                            Instant.parse(rows.getString(3)),
                            until == null ? null : Instant.parse(until),
                            alerts.getOrDefault(number, List.of()),
                            entries.getOrDefault(number, List.of()),
                            rows.getInt(5) != 0));
                }
            }
            return acts;
        }
    }

    private static Mark mark(String word) {
        return Mark.ofWord(word)
                .orElseThrow(() -> new StoreException(
                        Trouble.DAMAGED, "journal.db: nothing done about an alert is called " + word, null));
    }
}
