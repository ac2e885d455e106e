package traytender.dashboard.command;

import org.jspecify.annotations.Nullable;

/** A command that could not do its work; the message is for the grower, and the program ends with status 1. */
final class Failure extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Failure(String message) {
        this(message, null);
    }

    Failure(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
