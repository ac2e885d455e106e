package traytender.dashboard.program;

import org.jspecify.annotations.Nullable;

/** The program could not do what was asked; the message is for the grower. */
public final class ProgramException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public ProgramException(String message) {
        this(message, null);
    }

    public ProgramException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
