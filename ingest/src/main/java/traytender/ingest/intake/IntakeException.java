package traytender.ingest.intake;

/** Messages cannot be taken in as the site file says; the message is for the grower. */
public final class IntakeException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    IntakeException(String message, Throwable cause) {
        super(message, cause);
    }
}
