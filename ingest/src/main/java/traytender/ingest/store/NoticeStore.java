package traytender.ingest.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import traytender.ingest.store.StoreException.Trouble;

/**
 * What was sent to whom, or waits to be, in {@code journal.db}; nothing is deleted. <b>Any thread may call.</b> Every method throws
 * {@link StoreException} when the disk or the database fails, and has then changed nothing.
 */
public final class NoticeStore {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final TypeReference<List<String>> IDS = new TypeReference<>() {};

    private final Database database;

    NoticeStore(Database database) {
        this.database = database;
    }

    /** Keeps new notices as one group. */
    public void add(List<StoredNotice> notices) {
        database.write(connection -> {
            for (StoredNotice notice : notices) {
                insert(connection, notice);
            }
            return notices.size();
        });
    }

    private static void insert(Connection connection, StoredNotice notice) throws SQLException {
        try (var insert =
                connection.prepareStatement("INSERT INTO notice (person, way, subject, body, alerts, made, state,"
                        + " tries, next, trouble) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")) {
            insert.setString(1, notice.person());
            insert.setString(2, notice.way());
            insert.setString(3, notice.subject());
            insert.setString(4, notice.body());
            insert.setString(5, JSON.writeValueAsString(notice.alerts()));
            insert.setString(6, notice.made().toString());
            insert.setString(7, notice.state());
            insert.setInt(8, notice.tries());
            insert.setString(9, notice.next().toString());
            insert.setString(10, notice.trouble());
            insert.executeUpdate();
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException(notice + " cannot be written", e);
        }
    }

    /** Keeps how a notice stands after a try. */
    public void update(StoredNotice notice) {
        database.write(connection -> {
            try (var update = connection.prepareStatement(
                    "UPDATE notice SET state = ?, tries = ?, next = ?, trouble = ? WHERE number = ?")) {
                update.setString(1, notice.state());
                update.setInt(2, notice.tries());
                update.setString(3, notice.next().toString());
                update.setString(4, notice.trouble());
                update.setLong(5, notice.number());
                return update.executeUpdate();
            }
        });
    }

    /** Those that wait to be sent, the oldest first. */
    public List<StoredNotice> waiting() {
        return database.read(connection -> select(connection, "state = 'waiting' ORDER BY number"));
    }

    /** The newest ones, the newest first. */
    public List<StoredNotice> newest(int most) {
        return database.read(connection -> select(connection, "1 = 1 ORDER BY number DESC LIMIT " + most));
    }

    private static List<StoredNotice> select(Connection connection, String which) throws SQLException {
        try (var statement = connection.createStatement();
                var rows =
                        statement.executeQuery("SELECT number, person, way, subject, body, alerts, made, state, tries,"
                                + " next, trouble FROM notice WHERE " + which)) {
            var notices = new ArrayList<StoredNotice>();
            while (rows.next()) {
                notices.add(notice(rows));
            }
            return List.copyOf(notices);
        }
    }

    private static StoredNotice notice(ResultSet row) throws SQLException {
        try {
            return new StoredNotice(
                    row.getLong(1),
                    row.getString(2),
                    row.getString(3),
                    row.getString(4),
                    row.getString(5),
                    JSON.readValue(row.getString(6), IDS),
                    Instant.parse(row.getString(7)),
                    row.getString(8),
                    row.getInt(9),
                    Instant.parse(row.getString(10)),
                    row.getString(11));
        } catch (JsonProcessingException e) {
            throw new StoreException(Trouble.DAMAGED, "journal.db: a notice's alerts are not JSON", e);
        }
    }
}
