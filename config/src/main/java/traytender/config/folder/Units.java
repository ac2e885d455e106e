package traytender.config.folder;

/** UCUM codes in a grower's words. */
final class Units {
    private Units() {}

    static String spoken(String ucum) {
        return switch (ucum) {
            case "Cel", "K" -> "C";
            case "h" -> "hours";
            case "min" -> "minutes";
            case "d" -> "days";
            case "1" -> "";
            default -> ucum;
        };
    }
}
