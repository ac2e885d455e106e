package traytender.ingest.file;

import org.jspecify.annotations.Nullable;

/** A file that cannot be imported at all. */
public final class ImportException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    ImportException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
