package traytender.rules.judge;

/**
 * Whether a number is known. Rules ask it of every number that may be unknown before they compare with {@code >} or {@code
 * >=}: the rule engine orders NaN above all numbers, so that an unknown number would be larger than any limit.
 */
public final class Known {
    private Known() {}

    /** Whether it is a number at all. */
    public static boolean known(double number) {
        return !Double.isNaN(number);
    }
}
