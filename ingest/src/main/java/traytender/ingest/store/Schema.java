package traytender.ingest.store;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import traytender.ingest.store.StoreException.Trouble;

/**
 * The numbered SQL files that make a database what this version of the program expects. The database itself remembers how
 * many it has seen ({@code PRAGMA user_version}). A file once released is never edited; a change is the next file.
 *
 * @param files resource names beside this class, the first is version 1
 */
record Schema(List<String> files) {
    static final Schema READINGS = new Schema(List.of(
            "readings/v001__readings.sql",
            "readings/v002__import.sql",
            "readings/v003__outbox.sql",
            "readings/v004__removed.sql",
            "readings/v005__sealed.sql"));
    static final Schema JOURNAL =
            new Schema(List.of("journal/v001__journal.sql", "journal/v002__marks.sql", "journal/v003__notices.sql"));

    /** What {@code user_version} is once all files are in. */
    int version() {
        return files.size();
    }

    /** Brings the database up to this version, all in one transaction. */
    void apply(Connection connection, String where) throws SQLException {
        if (versionOf(connection, where) == version()) {
            return;
        }
        Transactions.run(connection, within -> {
            try (var statement = within.createStatement()) {
                // Another program may have brought it up while this one waited for its turn.
                for (var sql : sqlFrom(versionOf(within, where))) {
                    statement.executeUpdate(sql);
                }
                return statement.execute("PRAGMA user_version = " + version());
            }
        });
    }

    /**
     * How many files the database has seen.
     *
     * @throws StoreException when it has seen more than there are
     */
    int versionOf(Connection connection, String where) throws SQLException {
        try (var statement = connection.createStatement();
                var rows = statement.executeQuery("PRAGMA user_version")) {
            var found = rows.getInt(1);
            if (found > version()) {
                throw new StoreException(
                        Trouble.NEWER,
                        where + ": written by a newer Traytender (version " + found
                                + " of its tables, this program knows " + version()
                                + ").\nMaybe update this program; the file was left as it is.",
                        null);
            }
            return found;
        }
    }

    private List<String> sqlFrom(int seen) {
        var statements = new ArrayList<String>();
        for (var file : files.subList(seen, files.size())) {
            statements.add(read(file));
        }
        return statements;
    }

    private static String read(String file) {
        try (var in = Schema.class.getResourceAsStream(file)) {
            if (in == null) {
                throw new IllegalStateException("no resource " + file);
            }
            return new String(in.readAllBytes(), UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
