package traytender.ingest.nursery.world;

/** Vapour pressure of water over air of a temperature. */
public final class Vapour {
    private Vapour() {}

    /**
     * Saturation vapour pressure in kPa at a temperature in C; FAO Irrigation and Drainage Paper 56 (1998), equation 11, for
     * ordinary air temperatures.
     */
    public static double saturated(double celsius) {
        return 0.6108 * Math.exp(17.27 * celsius / (celsius + 237.3));
    }

    /** Relative humidity in percent, at most 100, of air of a temperature (C) that holds a vapour pressure (kPa). */
    public static double humidity(double celsius, double vapour) {
        return Math.min(100, 100 * vapour / saturated(celsius));
    }
}
