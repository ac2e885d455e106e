package traytender.dashboard.notice;

import org.jspecify.annotations.Nullable;

/** A notice was not taken; the message says why, for the grower. */
final class UndeliveredException extends Exception {
    private static final long serialVersionUID = 1L;

    UndeliveredException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
