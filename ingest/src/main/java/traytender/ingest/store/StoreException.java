package traytender.ingest.store;

import org.jspecify.annotations.Nullable;

/** The store could not do what was asked; nothing of it was done. */
public class StoreException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** What kind of trouble it is. */
    public enum Trouble {
        DISK_FULL("the disk is full"),
        READ_ONLY("the files cannot be written"),
        DAMAGED("the database is damaged"),
        BUSY("the database is held by another program"),
        NEWER("the database was written by a newer version of the program"),
        IN_USE("the site folder is in use"),
        FILE("the file cannot be read or written"),
        OTHER("the database failed");

        private final String words;

        Trouble(String words) {
            this.words = words;
        }

        /** The trouble in a few words. */
        public String words() {
            return words;
        }
    }

    private final Trouble trouble;

    public StoreException(Trouble trouble, String message, @Nullable Throwable cause) {
        super(message, cause);
        this.trouble = trouble;
    }

    /** What kind of trouble it is. */
    public Trouble trouble() {
        return trouble;
    }
}
