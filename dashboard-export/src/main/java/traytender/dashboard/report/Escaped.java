package traytender.dashboard.report;

/** Text that can stand in HTML as it is. */
final class Escaped {
    private Escaped() {}

    static String of(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
