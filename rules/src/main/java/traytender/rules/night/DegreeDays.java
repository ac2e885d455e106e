package traytender.rules.night;

/**
 * Degree days from a day's lowest and highest temperature. Any temperature scale, as long as it is one.
 *
 * <p>The single sine takes the day for one sine wave between lowest and highest (Baskerville and Emin 1969); with a horizontal
 * cut-off, warmth above the upper threshold counts no more than the threshold itself (UC IPM, TrenchR).
 */
public final class DegreeDays {
    private DegreeDays() {}

    /** Mean of lowest and highest above the base, never below 0. */
    public static double average(double lowest, double highest, double base) {
        return Math.max(0, (lowest + highest) / 2 - base);
    }

    /** Single sine without an upper threshold. */
    public static double singleSine(double lowest, double highest, double base) {
        if (lowest >= base) {
            return (lowest + highest) / 2 - base;
        }
        if (highest <= base) {
            return 0;
        }
        double mean = (lowest + highest) / 2;
        double half = (highest - lowest) / 2;
        double angle = Math.asin(Math.max(-1, Math.min(1, (base - mean) / half)));
        return ((mean - base) * (Math.PI / 2 - angle) + half * Math.cos(angle)) / Math.PI;
    }

    /** Single sine with a horizontal cut-off at an upper threshold. */
    public static double singleSine(double lowest, double highest, double base, double upper) {
        return singleSine(lowest, highest, base) - singleSine(lowest, highest, upper);
    }
}
