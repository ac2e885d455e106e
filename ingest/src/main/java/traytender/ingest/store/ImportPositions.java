package traytender.ingest.store;

import java.sql.Connection;
import java.sql.SQLException;

/**
 * How far the import of each unfinished file has come, kept beside the readings so that an interrupted import goes on where it
 * stopped. A position may lag behind the readings, never run ahead of them: what is read twice is stored once.
 */
public final class ImportPositions {
    private final Database database;

    ImportPositions(Database database) {
        this.database = database;
    }

    /**
     * The position remembered for a file, 0 when none is.
     *
     * @param file what tells this very content from any other
     */
    public long of(String file) {
        return database.read(connection -> {
            try (var select = connection.prepareStatement("SELECT position FROM import_position WHERE file = ?")) {
                select.setString(1, file);
                var rows = select.executeQuery();
                return rows.next() ? rows.getLong(1) : 0L;
            }
        });
    }

    /** Remembers that all readings before the position are on disk. */
    public void remember(String file, long position) {
        database.write(connection -> {
            try (var upsert = connection.prepareStatement(
                    "INSERT OR REPLACE INTO import_position (file, position) VALUES (?, ?)")) {
                upsert.setString(1, file);
                upsert.setLong(2, position);
                return upsert.executeUpdate();
            }
        });
    }

    /** Forgets a file that is in. */
    public void forget(String file) {
        database.write(connection -> delete(connection, file));
    }

    private static int delete(Connection connection, String file) throws SQLException {
        try (var delete = connection.prepareStatement("DELETE FROM import_position WHERE file = ?")) {
            delete.setString(1, file);
            return delete.executeUpdate();
        }
    }
}
