package traytender.ingest.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.ingest.store.StoreException.Trouble;

/**
 * What is done about damaged database files. A file is checked lightly at every open, and whole when an earlier run met damage
 * in it, which that run notes in a file beside it, or ended without closing it: reading a season's readings through at every start
 * would take too long.
 */
final class Damage {
    private static final Logger LOG = LoggerFactory.getLogger(Damage.class);
    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);

    private Damage() {}

    /**
     * Whether a program ended without closing the file, by a kill or a power cut: its log is still there. To be asked before the
     * file is opened, by who holds the site's lock.
     */
    static boolean wasLeftOpen(Path file) {
        var wal = file.resolveSibling(file.getFileName() + "-wal");
        try {
            return Files.exists(wal) && Files.size(wal) > 0;
        } catch (IOException e) {
            throw Troubles.of(e, wal.toString());
        }
    }

    /** Throws {@link StoreException} when the file is damaged. */
    static void check(Connection connection, Path file) throws SQLException {
        try (var statement = connection.createStatement()) {
            statement.executeQuery("SELECT count(*) FROM sqlite_master").close();
            if (Files.exists(suspicion(file))) {
                checkWhole(connection, file);
                Files.deleteIfExists(suspicion(file));
            }
        } catch (IOException e) {
            throw Troubles.of(e, file.toString());
        }
    }

    /** Reads the whole file through. */
    static void checkWhole(Connection connection, Path file) throws SQLException {
        try (var statement = connection.createStatement()) {
            var found = statement.executeQuery("PRAGMA quick_check(1)").getString(1);
            if (!"ok".equals(found)) {
                throw new StoreException(
                        Trouble.DAMAGED, file + ": " + Trouble.DAMAGED.words() + " (" + found + ")", null);
            }
        }
    }

    /** Has the next open check the file whole. */
    static void suspect(Path file) {
        try {
            Files.writeString(suspicion(file), "to be read through at the next start\n");
        } catch (IOException e) {
            LOG.warn("{} may be damaged, and that could not be noted beside it: {}", file, e.toString());
        }
    }

    /** Whether damage was met in the file since it was opened. */
    static boolean isSuspect(Path file) {
        return Files.exists(suspicion(file));
    }

    private static Path suspicion(Path file) {
        return file.resolveSibling(file.getFileName() + ".suspect");
    }

    /**
     * Moves the file and what belongs to it out of the way, whole, under a dated name.
     *
     * @param why first part of the ending
     * @return its new name
     */
    static Path setAside(Path file, String why, Instant now) {
        var aside = freeName(file, "." + why + "-" + STAMP.format(now));
        try {
            // SQLite looks for the log under the name of its database, so both keep matching names.
            for (var ending : List.of("", "-wal")) {
                var part = file.resolveSibling(file.getFileName() + ending);
                if (Files.exists(part)) {
                    Files.move(part, aside.resolveSibling(aside.getFileName() + ending));
                }
            }
            Files.deleteIfExists(file.resolveSibling(file.getFileName() + "-shm"));
            Files.deleteIfExists(suspicion(file));
            return aside;
        } catch (IOException e) {
            throw Troubles.of(e, file.toString());
        }
    }

    /** Names of the databases in the folder that once were found damaged. */
    static List<String> standingAside(Path data) {
        var names = new ArrayList<String>();
        try (var files = Files.newDirectoryStream(data, "*.db.damaged-*")) {
            for (var file : files) {
                var name = file.getFileName().toString();
                if (!name.endsWith("-wal") && !name.endsWith("-shm")) {
                    names.add(name);
                }
            }
        } catch (IOException e) {
            throw Troubles.of(e, data.toString());
        }
        names.sort(null);
        return names;
    }

    private static Path freeName(Path file, String ending) {
        var name = file.resolveSibling(file.getFileName() + ending);
        for (int n = 2; Files.exists(name); n++) {
            name = file.resolveSibling(file.getFileName() + ending + "-" + n);
        }
        return name;
    }
}
