package traytender.ingest.decode;

/** Why something in a message is left out. Carries no stack trace: a broken sensor may send thousands. */
final class Refused extends Exception {
    private static final long serialVersionUID = 1L;

    private final Cause cause;

    Refused(Cause cause) {
        super(cause.word(), null, false, false);
        this.cause = cause;
    }

    Cause why() {
        return cause;
    }
}
