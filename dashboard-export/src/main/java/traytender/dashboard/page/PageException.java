package traytender.dashboard.page;

import org.jspecify.annotations.Nullable;

/** The page cannot be served; the message tells the grower why and what to change. */
public final class PageException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public PageException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
