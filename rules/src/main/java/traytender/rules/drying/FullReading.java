package traytender.rules.drying;

import java.util.Collection;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;

/**
 * What a probe's error is, learnt from waterings that filled its place, where the true moisture is 1 by definition. Used in
 * forecasts only; a calibration is never changed by it.
 *
 * <p>A probe reads g m + o + r: gain g about 1, offset o about 0, and what differs between wet and dry for other reasons, such as
 * warmth and slow drift. A settled watering shows g + o, with its own doubt, for not every watering settles at just 1. How far
 * the probes of one tray are off at full tells how good probes of that make are ({@link #spread}), one cheap lot or another;
 * gain, offset and rest keep their shares of it. What follows for any other moisture is the conditional mean of a normal
 * distribution. A level far from 1 did not come from a filled cell and says nothing. <b>Not thread-safe.</b>
 */
public final class FullReading {
    /** Shares of gain and offset in the variance of the error at full, and the rest's beside them; our choice. */
    private static final double GAIN_SHARE = 0.8;

    private static final double OFFSET_SHARE = 0.2;
    private static final double REST_SHARE = 0.15;
    /** Standard deviation of a filled cell's settled level about 1; our choice. */
    private static final double FILL_DOUBT = 0.005;
    /** Standard deviation of cheap probes' errors at full, and how many probes that knowledge is worth; our choice. */
    private static final double USUAL_SPREAD = 0.0125;

    private static final int USUAL_PROBES = 3;
    /** Student's t over the normal at 90 percent, by degrees of freedom from 1; the last holds for more, to a fiftieth. */
    private static final double[] WIDER = IntStream.rangeClosed(1, 24)
            .mapToDouble(freedom -> new TDistribution(freedom).inverseCumulativeProbability(0.9)
                    / new NormalDistribution().inverseCumulativeProbability(0.9))
            .toArray();

    private static final double LOWEST = 0.93;
    private static final double HIGHEST = 1.08;
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

    /**
     * Standard deviation of probes' errors at full, as some of them show it: the mean square of an inverse gamma distribution that is
     * known to begin with as if from {@value #USUAL_PROBES} probes. From so few the spread itself is in doubt, so that an error has
     * Student's t distribution (Student 1908); given is the normal one's whose middle 80 percent are as wide.
     */
    public static double spread(Collection<FullReading> probes) {
        double squares = USUAL_PROBES * square(USUAL_SPREAD);
        int known = USUAL_PROBES;
        for (FullReading probe : probes) {
            if (probe.count > 0) {
                squares += square(probe.mean);
                known++;
            }
        }
        return WIDER[Math.min(known, WIDER.length) - 1] * Math.sqrt(squares / known);
    }

    /** {@link #spread(Collection)} as this probe alone shows it. */
    double ownSpread() {
        return spread(List.of(this));
    }

    /**
     * What the probe reads at a moisture, as far as its waterings tell; the moisture itself before the first.
     *
     * @param spread standard deviation of such probes' errors at full
     */
    public double at(double moisture, double spread) {
        return count == 0 ? moisture : moisture + with(moisture, spread) / seen(spread) * mean;
    }

    /** Standard deviation of {@link #at}. */
    public double error(double moisture, double spread) {
        double alone = square(spread) * (GAIN_SHARE * square(moisture) + OFFSET_SHARE + REST_SHARE);
        return Math.sqrt(count == 0 ? alone : alone - square(with(moisture, spread)) / seen(spread));
    }

    /** Covariance of the errors at a moisture and at full. */
    private static double with(double moisture, double spread) {
        return square(spread) * (GAIN_SHARE * moisture + OFFSET_SHARE);
    }

    /** Variance of the mean error seen at full. */
    private double seen(double spread) {
        return square(spread) + square(FILL_DOUBT) / count;
    }

    private static double square(double value) {
        return value * value;
    }

    /** How many waterings have counted, at most {@value #MOST}. */
    public int count() {
        return count;
    }
}
