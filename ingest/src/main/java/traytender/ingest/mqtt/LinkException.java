package traytender.ingest.mqtt;

import org.jspecify.annotations.Nullable;

/** The broker did not take what was sent to it, or cannot be reached as the settings say. */
public final class LinkException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    LinkException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
