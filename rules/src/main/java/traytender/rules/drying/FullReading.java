package traytender.rules.drying;

/**
 * What a probe's error is, learnt from waterings that filled its place, where the true moisture is 1 by definition. Used in
 * forecasts only; a calibration is never changed by it.
 *
 * <p>A probe reads g m + o. Gain g about 1 and offset o about 0 are unknown, with the standard deviations below; a settled
 * watering shows g + o, with its own doubt, for not every watering settles at just 1. What follows for any other moisture is the
 * conditional mean of a normal distribution. A level far from 1 did not come from a filled cell and says nothing. <b>Not
 * thread-safe.</b>
 */
public final class FullReading {
    /** Standard deviations of cheap probes' gain and offset, and of a filled cell's settled level about 1; our choice. */
    private static final double GAIN_DOUBT = 0.012;

    private static final double OFFSET_DOUBT = 0.006;
    private static final double FILL_DOUBT = 0.008;
    private static final double KNOWN_FROM = 2;
    private static final double LOWEST = 0.95;
    private static final double HIGHEST = 1.06;
    /** So that a slow change of the probe is followed; our choice: drift in a week is as much as one watering may be off. */
    private static final int MOST = 4;

    private double mean;
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
        mean += (level - 1 - mean) / count;
    }

    /** What the probe reads at a moisture, as far as its waterings tell; the moisture itself before the first. */
    double at(double moisture) {
        return count == 0 ? moisture : moisture + with(moisture) / seen() * mean;
    }

    /**
     * Standard deviation of {@link #at}. A probe that is further off at full than most is taken for a worse one altogether, a
     * nearer one for a better: the variances are an inverse gamma's, known to begin with as if from {@value #KNOWN_FROM} probes.
     */
    double error(double moisture) {
        double alone = square(GAIN_DOUBT * moisture) + square(OFFSET_DOUBT);
        if (count == 0) {
            return Math.sqrt(alone);
        }
        double worse = (KNOWN_FROM + square(mean) / seen()) / (KNOWN_FROM + 1);
        return Math.sqrt(worse * Math.max(0, alone - square(with(moisture)) / seen()));
    }

    /** How the error at a moisture goes with the error at full. */
    private static double with(double moisture) {
        return square(GAIN_DOUBT) * moisture + square(OFFSET_DOUBT);
    }

    /** Variance of the mean error seen at full. */
    private double seen() {
        return with(1) + square(FILL_DOUBT) / count;
    }

    private static double square(double value) {
        return value * value;
    }

    /** What the probe reads in full medium; 1 until shown otherwise. */
    public double value() {
        return at(1);
    }

    /** How many waterings have counted, at most {@value #MOST}. */
    public int count() {
        return count;
    }
}
