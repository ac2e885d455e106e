package traytender.dashboard.page;

/** An answer that is not what was asked for: an HTTP status with a plain word to the asker. */
final class Answer extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final int status;

    private Answer(int status, String message) {
        super(message, null, false, false);
        this.status = status;
    }

    /** The question is put wrongly. */
    static Answer wrong(String message) {
        return new Answer(400, message);
    }

    /** There is no such thing. */
    static Answer unknown(String message) {
        return new Answer(404, message);
    }

    /** It may not be done, or not in this way. */
    static Answer refused(int status, String message) {
        return new Answer(status, message);
    }

    int status() {
        return status;
    }

    String word() {
        String message = getMessage();
        return message == null ? "" : message;
    }
}
