package traytender.dashboard.setup;

/** A change of the site's file that is not made; the message is for the grower. Nothing has changed. */
public final class SiteRefusedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final boolean isStale;

    SiteRefusedException(String message, boolean isStale) {
        super(message);
        this.isStale = isStale;
    }

    SiteRefusedException(String message) {
        this(message, false);
    }

    /** Whether somebody else changed the file meanwhile. */
    public boolean isStale() {
        return isStale;
    }
}
