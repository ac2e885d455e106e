package traytender.ingest.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.locks.ReentrantLock;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteOpenMode;
import traytender.ingest.store.StoreException.Trouble;

/**
 * One SQLite file: one connection that writes, one transaction at a time, and as many that read as are wanted at once. In WAL
 * mode readers never wait for the writer; with {@code synchronous=FULL} a commit is on the disk when it returns.
 *
 * <p><b>Any thread may call.</b>
 */
final class Database implements AutoCloseable {
    /** Work on a connection, with an answer. */
    @FunctionalInterface
    interface Work<T> {
        T on(Connection connection) throws SQLException;
    }

    /** More idle readers than this are closed; our choice, about as many as a page asks for at once. */
    private static final int IDLE_READERS = 4;

    private static final int BUSY_TIMEOUT_MS = 10_000;
    private static final int SYNCHRONOUS_FULL = 2;
    /** Of 4 kB each: so little is not worth writing the file anew. */
    private static final int FEW_PAGES = 500;

    private final Path file;
    private final Connection writer;
    private final ReentrantLock writing = new ReentrantLock(true);
    private final ConcurrentLinkedDeque<Connection> readers = new ConcurrentLinkedDeque<>();
    private volatile boolean closed;

    private Database(Path file, Connection writer) {
        this.file = file;
        this.writer = writer;
    }

    /**
     * Opens the file, or makes it, and brings its tables up to the schema.
     *
     * @throws StoreException also when the file was written by a newer program, or cannot keep its promises on this disk
     */
    static Database open(Path file, Schema schema) {
        NativeLibrary.unpackInto(file.toAbsolutePath().resolveSibling("native"));
        try {
            Files.createDirectories(file.toAbsolutePath().getParent());
            var writer = connect(file);
            try {
                verifyDurability(writer, file);
                Damage.check(writer, file);
                schema.apply(writer, file.toString());
                return new Database(file, writer);
            } catch (SQLException | RuntimeException e) {
                writer.close();
                throw e;
            }
        } catch (SQLException e) {
            throw Troubles.of(e, file.toString());
        } catch (IOException e) {
            throw Troubles.of(e, file.toString());
        }
    }

    private static Connection connect(Path file) throws SQLException {
        var config = new SQLiteConfig();
        config.setBusyTimeout(BUSY_TIMEOUT_MS);
        config.setJournalMode(SQLiteConfig.JournalMode.WAL);
        config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
        config.enforceForeignKeys(true);
        config.setOpenMode(SQLiteOpenMode.OPEN_URI);
        // As an address: in a plain name the driver takes what follows a question mark for settings.
        var address = file.toAbsolutePath().toUri().getRawPath();
        return DriverManager.getConnection("jdbc:sqlite:file:" + address, config.toProperties());
    }

    /** SQLite falls back without an error where a file system has no shared memory, so the answer is read back. */
    private static void verifyDurability(Connection connection, Path file) throws SQLException {
        try (var statement = connection.createStatement()) {
            var mode = statement.executeQuery("PRAGMA journal_mode").getString(1);
            var synchronous = statement.executeQuery("PRAGMA synchronous").getInt(1);
            if (!"wal".equals(mode) || synchronous != SYNCHRONOUS_FULL) {
                throw new StoreException(
                        Trouble.OTHER,
                        file + ": this disk gives journal_mode=" + mode + " and synchronous=" + synchronous
                                + " where wal and 2 are needed.\nMaybe the folder is on a network drive; put it on a local disk.",
                        null);
            }
        }
    }

    /** How many of the schema's files a database has seen, read without changing it. */
    static int versionOf(Path file, Schema schema) {
        return onItsOwn(file, connection -> schema.versionOf(connection, file.toString()));
    }

    /** Copies a database as it stands at one moment, also while it is written to, into a file that must not be there yet. */
    static void copy(Path file, Path target) {
        onItsOwn(file, connection -> {
            try (var vacuum = connection.prepareStatement("VACUUM INTO ?")) {
                vacuum.setString(1, target.toString());
                return vacuum.execute();
            }
        });
    }

    /** Throws {@link StoreException} unless a database is whole and of a version that this program knows. */
    static void checkWhole(Path file, Schema schema) {
        onItsOwn(file, connection -> {
            Damage.checkWhole(connection, file);
            return schema.versionOf(connection, file.toString());
        });
    }

    private static <T> T onItsOwn(Path file, Work<T> work) {
        NativeLibrary.unpackInto(file.toAbsolutePath().resolveSibling("native"));
        try (var connection = connect(file)) {
            return work.on(connection);
        } catch (SQLException e) {
            throw Troubles.of(e, file.toString());
        }
    }

    /** Does the work in one transaction: all of it is on disk when this returns, none of it when it throws. */
    <T> T write(Work<T> work) {
        writing.lock();
        try {
            refuseWhenClosed();
            return Transactions.run(writer, work);
        } catch (SQLException e) {
            throw troubled(e);
        } finally {
            writing.unlock();
        }
    }

    /** Does the work on a connection of its own that sees what was committed. */
    <T> T read(Work<T> work) {
        refuseWhenClosed();
        try {
            var idle = readers.pollFirst();
            var reader = idle == null ? connect(file) : idle;
            try {
                return work.on(reader);
            } finally {
                giveBack(reader);
            }
        } catch (SQLException e) {
            throw troubled(e);
        }
    }

    /** Does the work on a connection of its own that sees one moment throughout, whatever is committed meanwhile. */
    <T> T readAtOneMoment(Work<T> work) {
        return read(connection -> Transactions.runReading(connection, work));
    }

    /** Gives pages that nothing uses any more back to the disk, when they are more than half of the file and two megabytes. */
    void shrink() {
        writing.lock();
        try (var statement = writer.createStatement()) {
            refuseWhenClosed();
            long pages = statement.executeQuery("PRAGMA page_count").getLong(1);
            long free = statement.executeQuery("PRAGMA freelist_count").getLong(1);
            if (free > FEW_PAGES && free > pages / 2) {
                statement.execute("VACUUM");
                statement.execute("PRAGMA wal_checkpoint(TRUNCATE)");
            }
        } catch (SQLException e) {
            throw troubled(e);
        } finally {
            writing.unlock();
        }
    }

    private StoreException troubled(SQLException e) {
        var trouble = Troubles.of(e, file.toString());
        if (trouble.trouble() == Trouble.DAMAGED) {
            Damage.suspect(file);
        }
        return trouble;
    }

    private void giveBack(Connection reader) throws SQLException {
        if (closed || readers.size() >= IDLE_READERS) {
            reader.close();
            return;
        }
        readers.addFirst(reader);
        if (closed) {
            closeReaders();
        }
    }

    private void refuseWhenClosed() {
        if (closed) {
            throw new IllegalStateException(file + " is closed");
        }
    }

    @Override
    public void close() {
        writing.lock();
        try {
            closed = true;
            closeReaders();
            // The last connection to close folds the WAL into the file.
            writer.close();
        } catch (SQLException e) {
            throw Troubles.of(e, file.toString());
        } finally {
            writing.unlock();
        }
    }

    private void closeReaders() throws SQLException {
        for (var reader = readers.pollFirst(); reader != null; reader = readers.pollFirst()) {
            reader.close();
        }
    }
}
