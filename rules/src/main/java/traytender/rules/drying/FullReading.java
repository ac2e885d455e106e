package traytender.rules.drying;

/**
 * What a probe reads in medium that is watered through and drained, where the true moisture is 1 by definition: its error of
 * gain, learnt from waterings that filled the place. Used in forecasts only; a calibration is never changed by it.
 *
 * <p>A watering counts when the level settles near 1; one that settles lower did not fill the cell and says nothing.
 * Weighted mean with the calibration's own 1 as the first guess. <b>Not thread-safe.</b>
 */
public final class FullReading {
    /** Standard deviation of cheap probes' gain, and of a filled cell's settled level about 1; our choice. */
    private static final double GAIN_DOUBT = 0.02;

    private static final double FILL_DOUBT = 0.012;
    private static final double LOWEST = 0.95;
    private static final double HIGHEST = 1.06;
    /** So that a slow change of the probe still shows after a season; our choice. */
    private static final int MOST = 12;

    private double mean = 1;
    private int count;

    FullReading copy() {
        var copy = new FullReading();
        copy.mean = mean;
        copy.count = count;
        return copy;
    }

    /** A watering has settled at a level. */
    void settled(double level) {
        if (level < LOWEST || level > HIGHEST) {
            return;
        }
        count = Math.min(count + 1, MOST);
        double weight = 1 / (FILL_DOUBT * FILL_DOUBT);
        double before = 1 / (GAIN_DOUBT * GAIN_DOUBT) + (count - 1) * weight;
        mean += weight / (before + weight) * (level - mean);
    }

    /** What the probe reads in full medium; 1 until shown otherwise. */
    public double value() {
        return mean;
    }

    /** Standard deviation of {@link #value()}. */
    public double error() {
        return Math.sqrt(1 / (1 / (GAIN_DOUBT * GAIN_DOUBT) + count / (FILL_DOUBT * FILL_DOUBT)));
    }

    /** How many waterings have counted, at most {@value #MOST}. */
    public int count() {
        return count;
    }
}
