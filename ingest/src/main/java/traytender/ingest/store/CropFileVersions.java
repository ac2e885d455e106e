package traytender.ingest.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What the site's crop files were, version by version, in {@code journal.db}; nothing is ever deleted. <b>Any thread may
 * call.</b> Every method throws {@link StoreException} when the disk or the database fails, and has then changed nothing.
 */
public final class CropFileVersions {
    private final Database database;

    CropFileVersions(Database database) {
        this.database = database;
    }

    /** Keeps versions as one group; the numbers given in them do not count. */
    public void add(List<CropFileVersion> versions) {
        database.write(connection -> {
            for (CropFileVersion version : versions) {
                insert(connection, version);
            }
            return versions.size();
        });
    }

    private static void insert(Connection connection, CropFileVersion version) throws SQLException {
        try (var insert = connection.prepareStatement(
                "INSERT INTO crop_file (file, text, at, who, what, why) VALUES (?, ?, ?, ?, ?, ?)")) {
            insert.setString(1, version.file());
            insert.setString(2, version.text());
            insert.setString(3, version.at().toString());
            insert.setString(4, version.who());
            insert.setString(5, version.what());
            insert.setString(6, version.why());
            insert.executeUpdate();
        }
    }

    /** Every version, the oldest first. */
    public List<CropFileVersion> all() {
        return database.read(connection -> {
            try (var statement = connection.createStatement();
                    var rows = statement.executeQuery(
                            "SELECT number, file, text, at, who, what, why FROM crop_file ORDER BY number")) {
                var versions = new ArrayList<CropFileVersion>();
                while (rows.next()) {
                    versions.add(new CropFileVersion(
                            rows.getLong(1),
                            rows.getString(2),
                            rows.getString(3),
                            Instant.parse(rows.getString(4)),
                            rows.getString(5),
                            rows.getString(6),
                            rows.getString(7)));
                }
                return List.copyOf(versions);
            }
        });
    }
}
