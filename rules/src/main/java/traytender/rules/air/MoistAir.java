package traytender.rules.air;

/**
 * Water vapour in air by FAO Irrigation and Drainage Paper 56 (Allen et al. 1998): equation 11 for saturation, its inverse
 * for the dew point. Over liquid water, made for about -5 to 50 C; below 0 C the air over ice holds less.
 */
public final class MoistAir {
    private static final double FACTOR = 0.6108;
    private static final double SLOPE = 17.27;
    private static final double SHIFT = 237.3;

    private MoistAir() {}

    /** Saturation vapour pressure in kPa, FAO-56 equation 11. */
    public static double saturationKpa(double celsius) {
        return FACTOR * Math.exp(SLOPE * celsius / (celsius + SHIFT));
    }

    /** Slope of the saturation curve in kPa/C, FAO-56 equation 13. */
    public static double saturationSlopeKpa(double celsius) {
        return 4098 * saturationKpa(celsius) / ((celsius + SHIFT) * (celsius + SHIFT));
    }

    /**
     * Vapour pressure in kPa.
     *
     * @param humidity relative, percent, 0..100; more counts as 100
     */
    public static double vapourKpa(double celsius, double humidity) {
        return saturationKpa(celsius) * Math.max(0, Math.min(100, humidity)) / 100;
    }

    /** Vapour pressure deficit in kPa: what the air could still take up. Never below 0. */
    public static double deficitKpa(double celsius, double humidity) {
        return saturationKpa(celsius) - vapourKpa(celsius, humidity);
    }

    /** Dew point in C; {@link Double#NEGATIVE_INFINITY} in air without any vapour. */
    public static double dewPoint(double celsius, double humidity) {
        double logarithm = Math.log(vapourKpa(celsius, humidity) / FACTOR);
        return Double.isInfinite(logarithm) ? Double.NEGATIVE_INFINITY : SHIFT * logarithm / (SLOPE - logarithm);
    }
}
