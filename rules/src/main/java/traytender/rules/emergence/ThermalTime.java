package traytender.rules.emergence;

import traytender.config.crop.Crop;

/**
 * Warmth a sowing has had towards emergence: degree days (C d) of the root zone above the crop's base, up to a ceiling
 * beyond which more heat brings nothing.
 *
 * <p>Base and sum come from the crop library, fitted to Harrington and Minges 1954 between 10 and 25 C; between 25 and 30 C their
 * days hardly shorten, so the ceiling is {@value #CEILING_C} C (our choice). A fit of so few points is off by up to a
 * fifth of the days, and beds emerge over several days: the window is {@value #EARLY} to {@value #LATE} of the sum (our
 * choice). Gaps longer than {@value #LONGEST_GAP_HOURS} h are bridged by the mean so far. Constant time a reading.
 * <b>Not thread-safe.</b>
 */
public final class ThermalTime {
    public static final double CEILING_C = 27;
    public static final double EARLY = 0.8;
    public static final double LATE = 1.3;
    static final int LONGEST_GAP_HOURS = 3;

    private static final double MS_PER_DAY = 86_400_000.0;

    private final Crop.Emergence emergence;
    private final long sownMs;
    private long lastMs;
    private double lastC = Double.NaN;
    private double sum;
    private double heard;

    /** Counts from the sowing. */
    public ThermalTime(Crop.Emergence emergence, long sownMs) {
        this.emergence = emergence;
        this.sownMs = sownMs;
        this.lastMs = sownMs;
    }

    /** A copy that goes on by itself. */
    public ThermalTime copy() {
        var copy = new ThermalTime(emergence, sownMs);
        copy.lastMs = lastMs;
        copy.lastC = lastC;
        copy.sum = sum;
        copy.heard = heard;
        return copy;
    }

    /** Takes a root-zone temperature; one not newer than the last, or before the sowing, changes nothing. */
    public void accept(long timeMs, double celsius) {
        if (timeMs <= lastMs) {
            return;
        }
        double days = (timeMs - lastMs) / MS_PER_DAY;
        if (!Double.isNaN(lastC) && days <= LONGEST_GAP_HOURS / 24.0) {
            sum += days * (gain(lastC) + gain(celsius)) / 2;
            heard += days;
        }
        lastMs = timeMs;
        lastC = celsius;
    }

    private double gain(double celsius) {
        return Math.max(0, Math.min(CEILING_C, celsius) - emergence.baseC());
    }

    /** Degree days a day, as it was on the mean so far; NaN before an hour was heard. */
    public double perDay() {
        return heard < 1.0 / 24 ? Double.NaN : sum / heard;
    }

    /** Degree days since the sowing, gaps bridged; NaN before an hour was heard. */
    public double degreeDays() {
        return perDay() * (lastMs - sownMs) / MS_PER_DAY;
    }

    /** Share of the sum that emergence takes; 1 when half the seedlings are due; NaN before an hour was heard. */
    public double progress() {
        return degreeDays() / emergence.degreeDays();
    }

    /** Whether it is time to look for the first seedlings. */
    public boolean isWindowOpen() {
        return progress() >= EARLY;
    }

    /** When a share of the sum will be reached at the mean warmth so far; {@link Long#MAX_VALUE} when it never will. */
    public long dueMs(double share) {
        double perDay = perDay();
        if (!(perDay > 0)) {
            return Long.MAX_VALUE;
        }
        double days = (share * emergence.degreeDays() - degreeDays()) / perDay;
        return lastMs + Math.round(days * MS_PER_DAY);
    }

    /** Days to emergence at one temperature; {@link Double#POSITIVE_INFINITY} at or below the base. */
    public static double daysAt(Crop.Emergence emergence, double celsius) {
        double above = Math.min(CEILING_C, celsius) - emergence.baseC();
        return above > 0 ? emergence.degreeDays() / above : Double.POSITIVE_INFINITY;
    }
}
