package traytender.ingest.file;

/** Why one line is left out. Carries no stack trace: a file may have millions of them. */
final class Rejection extends Exception {
    private static final long serialVersionUID = 1L;

    Rejection(String reason) {
        super(reason, null, false, false);
    }

    String reason() {
        return String.valueOf(getMessage());
    }

    /** Text from a file as it may stand in a message: short, and without characters that would break the line. */
    static String quoted(String text) {
        var plain = text.replaceAll("\\p{Cntrl}", "?");
        return "'" + (plain.length() > 60 ? plain.substring(0, 60) + "..." : plain) + "'";
    }
}
