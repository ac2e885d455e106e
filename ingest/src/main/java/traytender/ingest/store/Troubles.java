package traytender.ingest.store;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.sql.SQLException;
import java.util.Locale;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;
import traytender.ingest.store.StoreException.Trouble;

/** Turns what JDBC and the file system throw into {@link StoreException}, with the file and what is wrong in words. */
final class Troubles {
    private Troubles() {}

    static StoreException of(SQLException e, String where) {
        var trouble = e instanceof SQLiteException sqlite ? trouble(sqlite.getResultCode()) : Trouble.OTHER;
        return with(trouble, where, e);
    }

    static StoreException of(IOException e, String where) {
        var said = String.valueOf(e.getMessage()).toLowerCase(Locale.ROOT);
        if (said.contains("no space left") || said.contains("quota")) {
            return with(Trouble.DISK_FULL, where, e);
        }
        var unwritable = e instanceof AccessDeniedException || said.contains("read-only");
        return with(unwritable ? Trouble.READ_ONLY : Trouble.FILE, where, e);
    }

    private static StoreException with(Trouble trouble, String where, Exception e) {
        return new StoreException(trouble, where + ": " + trouble.words() + " (" + said(e) + ")" + advice(trouble), e);
    }

    private static String advice(Trouble trouble) {
        return trouble == Trouble.READ_ONLY
                ? "\nMaybe the folder belongs to another user, or its disk is mounted read-only."
                : "";
    }

    /** The message of a file system's exception is often only the file's name; what it means is its type. */
    private static String said(Exception e) {
        return e instanceof IOException
                ? e.getClass().getSimpleName() + ": " + e.getMessage()
                : String.valueOf(e.getMessage());
    }

    /** Extended codes carry the plain one in their lowest byte. */
    private static Trouble trouble(SQLiteErrorCode code) {
        return switch (SQLiteErrorCode.getErrorCode(code.code & 0xff)) {
            case SQLITE_FULL -> Trouble.DISK_FULL;
            case SQLITE_READONLY, SQLITE_CANTOPEN, SQLITE_PERM -> Trouble.READ_ONLY;
            case SQLITE_CORRUPT, SQLITE_NOTADB -> Trouble.DAMAGED;
            case SQLITE_BUSY, SQLITE_LOCKED -> Trouble.BUSY;
            default -> Trouble.OTHER;
        };
    }
}
