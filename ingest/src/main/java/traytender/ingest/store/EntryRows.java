package traytender.ingest.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.StoreException.Trouble;

/** Journal entries as rows. The detail is a JSON object with its keys in order, so that equal entries are equal rows. */
final class EntryRows {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final TypeReference<Map<String, String>> DETAIL = new TypeReference<>() {};
    private static final String SAME = "time = ? AND tray = ? AND kind = ? AND detail = ? AND note = ?";

    private EntryRows() {}

    static int insert(Connection connection, JournalEntry entry) throws SQLException {
        try (var insert = connection.prepareStatement(
                "INSERT OR IGNORE INTO entry (time, tray, kind, detail, note) VALUES (?, ?, ?, ?, ?)")) {
            bind(insert, 1, entry);
            return insert.executeUpdate();
        }
    }

    static @Nullable Long numberOf(Connection connection, JournalEntry entry) throws SQLException {
        try (var select = connection.prepareStatement("SELECT number FROM entry WHERE " + SAME)) {
            bind(select, 1, entry);
            var rows = select.executeQuery();
            return rows.next() ? rows.getLong(1) : null;
        }
    }

    /** An entry that was once corrected may be what a later correction goes back to. */
    static int makeCount(Connection connection, JournalEntry entry) throws SQLException {
        try (var update =
                connection.prepareStatement("UPDATE entry SET withdrawn = 0, replaced_by = NULL WHERE " + SAME)) {
            bind(update, 1, entry);
            return update.executeUpdate();
        }
    }

    static int replace(Connection connection, long wrong, JournalEntry right) throws SQLException {
        try (var update = connection.prepareStatement("UPDATE entry SET replaced_by = (SELECT number FROM entry WHERE "
                + SAME + ") WHERE number = ? AND replaced_by IS NULL")) {
            bind(update, 1, right);
            update.setLong(6, wrong);
            return update.executeUpdate();
        }
    }

    static int withdraw(Connection connection, JournalEntry entry) throws SQLException {
        try (var update = connection.prepareStatement("UPDATE entry SET withdrawn = 1 WHERE " + SAME)) {
            bind(update, 1, entry);
            return update.executeUpdate();
        }
    }

    static List<JournalEntry> select(Connection connection, String which) throws SQLException {
        return kept(connection, which).stream().map(KeptEntry::entry).toList();
    }

    static List<KeptEntry> kept(Connection connection, String which) throws SQLException {
        try (var statement = connection.createStatement();
                var rows =
                        statement.executeQuery("SELECT time, tray, kind, detail, note, number, withdrawn, replaced_by"
                                + " FROM entry WHERE " + which + " ORDER BY number")) {
            var entries = new ArrayList<KeptEntry>();
            while (rows.next()) {
                long replacedBy = rows.getLong(8);
                boolean isReplaced = !rows.wasNull();
                entries.add(new KeptEntry(
                        rows.getLong(6),
                        entry(rows),
                        rows.getInt(7) != 0,
                        isReplaced ? Long.valueOf(replacedBy) : null));
            }
            // The text of times does not sort as the times do where one has a fraction of a second. A stable sort.
            entries.sort(Comparator.comparing(kept -> kept.entry().time()));
            return entries;
        }
    }

    static int setWithdrawn(Connection connection, long number, boolean withdrawn) throws SQLException {
        try (var update = connection.prepareStatement(
                "UPDATE entry SET withdrawn = ? WHERE number = ? AND withdrawn <> ? AND replaced_by IS NULL")) {
            update.setInt(1, withdrawn ? 1 : 0);
            update.setLong(2, number);
            update.setInt(3, withdrawn ? 1 : 0);
            return update.executeUpdate();
        }
    }

    private static void bind(PreparedStatement statement, int from, JournalEntry entry) throws SQLException {
        statement.setString(from, entry.time().toString());
        statement.setString(from + 1, entry.tray());
        statement.setString(from + 2, entry.kind().word());
        statement.setString(from + 3, detail(entry));
        statement.setString(from + 4, entry.note());
    }

    private static String detail(JournalEntry entry) {
        try {
            return JSON.writeValueAsString(new TreeMap<>(entry.detail()));
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException(entry + " cannot be written", e);
        }
    }

    private static JournalEntry entry(ResultSet row) throws SQLException {
        var word = row.getString(3);
        var kind = EntryKind.ofWord(word)
                .orElseThrow(() -> new StoreException(
                        Trouble.DAMAGED, "journal.db: no kind of journal entry is called " + word, null));
        try {
            return new JournalEntry(
                    Instant.parse(row.getString(1)),
                    row.getString(2),
                    kind,
                    JSON.readValue(row.getString(4), DETAIL),
                    row.getString(5));
        } catch (JsonProcessingException e) {
            throw new StoreException(Trouble.DAMAGED, "journal.db: an entry's detail is not JSON", e);
        }
    }
}
