package traytender.rules.drying;

/**
 * The level of one moisture probe, freed from spikes, quantisation and jitter as the readings come.
 *
 * <p>A local linear trend (level and slope) followed by a Kalman filter. A reading far from what was foreseen is held
 * back; a real change (a watering, a probe lifted) is believed once {@value #AGREEING} readings in a row agree on it, a
 * lone spike is forgotten. The probe's noise is estimated from the differences of successive readings, winsorised so
 * that spikes and waterings do not count; for normal noise their mean absolute value is 2/sqrt(pi) = 1.128 standard
 * deviations.
 *
 * <p>Causal, deterministic, constant time a reading; a repeated or older reading changes nothing. Moisture is a fraction of
 * container capacity. <b>Not thread-safe.</b>
 */
public final class MoistureFilter {
    /** What became of a reading. */
    public enum Fate {
        /** It moved the level. */
        USED,
        /** Far off; held until the next readings tell whether it was a spike. */
        HELD,
        /** Readings in a row agreed on a higher level: the level was set anew. */
        JUMPED_UP,
        /** Readings in a row agreed on a lower level: the level was set anew. */
        JUMPED_DOWN,
        /** The readings it began with were spikes, as the next ones in a row agreed: the level was set anew, nothing has happened. */
        BEGUN_ANEW,
        /** Not newer than the last one. */
        IGNORED
    }

    /** How many far readings in a row are believed. Our choice: two spikes together are seen, three are not. */
    static final int AGREEING = 3;

    private static final double MEAN_DIFFERENCE = 1.1284;
    /** Noise assumed before any is measured; our choice, typical of cheap capacitive probes. */
    private static final double NOISE_AT_FIRST = 0.006;

    private static final double NOISE_FLOOR = 0.001;
    /** How much a drying rate may wander in an hour, as a standard deviation, per hour; our choice. */
    private static final double SLOPE_WANDER = 0.008;

    private static final double FAR = 5.0;
    private static final double SMALLEST_JUMP = 0.015;
    private static final double MS_PER_HOUR = 3_600_000.0;

    private long lastMs = Long.MIN_VALUE;
    private double lastValue = Double.NaN;
    private double level = Double.NaN;
    private double slope;
    private double levelVariance;
    private double covariance;
    private double slopeVariance;
    private double meanDifference = NOISE_AT_FIRST * MEAN_DIFFERENCE;
    private int count;

    private final double[] held = new double[AGREEING];
    private int heldCount;
    /** Readings that bear the level, no more than {@value #AGREEING}. */
    private int bearing;

    private long heldSinceMs;
    private double levelBeforeJump = Double.NaN;
    private long jumpMs = Long.MIN_VALUE;
    private int spikes;

    /** A filter that has heard nothing. */
    public MoistureFilter() {}

    /** A copy that goes on by itself. */
    public MoistureFilter copy() {
        var copy = new MoistureFilter();
        copy.lastMs = lastMs;
        copy.lastValue = lastValue;
        copy.level = level;
        copy.slope = slope;
        copy.levelVariance = levelVariance;
        copy.covariance = covariance;
        copy.slopeVariance = slopeVariance;
        copy.meanDifference = meanDifference;
        copy.count = count;
        System.arraycopy(held, 0, copy.held, 0, held.length);
        copy.heldCount = heldCount;
        copy.bearing = bearing;
        copy.heldSinceMs = heldSinceMs;
        copy.levelBeforeJump = levelBeforeJump;
        copy.jumpMs = jumpMs;
        copy.spikes = spikes;
        return copy;
    }

    /**
     * Takes a reading.
     *
     * @param timeMs event time
     * @param value moisture, finite
     */
    public Fate accept(long timeMs, double value) {
        if (timeMs <= lastMs && count > 0) {
            return Fate.IGNORED;
        }
        learnNoise(value);
        lastValue = value;
        if (count == 0) {
            start(timeMs, value);
            return Fate.USED;
        }
        foresee((timeMs - lastMs) / MS_PER_HOUR);
        lastMs = timeMs;
        count++;
        double deviation = value - level;
        double sigma = Math.sqrt(levelVariance + variance());
        if (Math.abs(deviation) > Math.max(SMALLEST_JUMP, FAR * sigma)) {
            return hold(timeMs, value, deviation);
        }
        if (heldCount > 0) {
            spikes += heldCount;
            heldCount = 0;
        }
        correct(deviation);
        bearing = Math.min(AGREEING, bearing + 1);
        return Fate.USED;
    }

    private void start(long timeMs, double value) {
        lastMs = timeMs;
        count = 1;
        bearing = 1;
        setAnew(value);
    }

    private void setAnew(double value) {
        level = value;
        slope = 0;
        levelVariance = variance();
        covariance = 0;
        slopeVariance = 4 * SLOPE_WANDER * SLOPE_WANDER;
    }

    private void learnNoise(double value) {
        if (Double.isNaN(lastValue)) {
            return;
        }
        double weight = Math.max(1.0 / 60, 1.0 / (count + 10.0));
        double difference = Math.min(Math.abs(value - lastValue), 4 * meanDifference);
        meanDifference += weight * (difference - meanDifference);
    }

    private void foresee(double hours) {
        double wander = SLOPE_WANDER * SLOPE_WANDER * hours;
        level += slope * hours;
        levelVariance += 2 * hours * covariance + hours * hours * slopeVariance + wander * hours * hours / 3;
        covariance += hours * slopeVariance + wander * hours / 2;
        slopeVariance += wander;
        // After a long silence the slope of old says little about now.
        slopeVariance = Math.min(slopeVariance, 25 * SLOPE_WANDER * SLOPE_WANDER);
        levelVariance = Math.min(levelVariance, 0.01);
        covariance = Math.min(covariance, Math.sqrt(levelVariance * slopeVariance));
    }

    private void correct(double deviation) {
        double total = levelVariance + variance();
        // Huber: beyond 2.5 standard deviations the pull no longer grows.
        double limit = 2.5 * Math.sqrt(total);
        double pull = Math.max(-limit, Math.min(limit, deviation));
        double levelGain = levelVariance / total;
        double slopeGain = covariance / total;
        level += levelGain * pull;
        slope += slopeGain * pull;
        slopeVariance -= slopeGain * covariance;
        covariance *= 1 - levelGain;
        levelVariance *= 1 - levelGain;
    }

    private Fate hold(long timeMs, double value, double deviation) {
        boolean sameSide = heldCount > 0 && Math.signum(held[0] - level) == Math.signum(deviation);
        if (!sameSide) {
            spikes += heldCount;
            heldCount = 0;
            heldSinceMs = timeMs;
        }
        held[heldCount] = value;
        heldCount++;
        if (heldCount < AGREEING) {
            return Fate.HELD;
        }
        boolean begun = isBorne();
        double before = level;
        double middle = middle(held[0], held[1], held[2]);
        // While it still climbs or falls the newest says more than the middle one.
        boolean moving = middle == held[1] && Math.abs(held[2] - held[0]) > 6 * noise();
        setAnew(moving ? held[2] : middle);
        heldCount = 0;
        bearing = AGREEING;
        if (!begun) {
            spikes++;
            return Fate.BEGUN_ANEW;
        }
        levelBeforeJump = before;
        jumpMs = heldSinceMs;
        return deviation > 0 ? Fate.JUMPED_UP : Fate.JUMPED_DOWN;
    }

    private static double middle(double a, double b, double c) {
        return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    }

    private double variance() {
        double noise = noise();
        return noise * noise;
    }

    /** Whether {@value #AGREEING} readings bear the level; the first ones may be spikes. */
    public boolean isBorne() {
        return bearing >= AGREEING;
    }

    /** Moisture now; NaN before the first reading. */
    public double level() {
        return level;
    }

    /** Standard deviation of {@link #level()}, the probe's own calibration error not included; NaN before the first reading. */
    public double spread() {
        return count == 0 ? Double.NaN : Math.sqrt(Math.max(0, levelVariance));
    }

    /** Change of the level per hour, positive while it gets wetter; 0 at first. */
    public double slope() {
        return slope;
    }

    /** Standard error of {@link #slope()}, per hour. */
    public double slopeError() {
        return Math.sqrt(Math.max(0, slopeVariance));
    }

    /** Standard deviation of a single reading about the level. */
    public double noise() {
        return Math.max(NOISE_FLOOR, meanDifference / MEAN_DIFFERENCE);
    }

    /** Event time of the newest reading; {@link Long#MIN_VALUE} before the first. */
    public long lastMs() {
        return lastMs;
    }

    /** When the first of the readings that made the last jump came; {@link Long#MIN_VALUE} without one. */
    public long jumpMs() {
        return jumpMs;
    }

    /** The level before the last jump; NaN without one. */
    public double levelBeforeJump() {
        return levelBeforeJump;
    }

    /** Readings put aside as spikes so far. */
    public int spikes() {
        return spikes;
    }

    /** Readings taken so far. */
    public int count() {
        return count;
    }
}
