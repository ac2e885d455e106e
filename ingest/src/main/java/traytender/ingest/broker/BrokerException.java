package traytender.ingest.broker;

import org.jspecify.annotations.Nullable;

/** The built-in broker cannot do its work; the message is for the grower. */
public final class BrokerException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    BrokerException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
