package traytender.rules.drying;

/**
 * How fast one place of a tray dries, fitted as its readings come, with standard errors.
 *
 * <p>The model, an extended Kalman filter of eight numbers: the level m; what the medium loses by itself, b; what leaves lose
 * more in even light, l, and in the sun, s; the leaves' growth a day, g; the moisture n below which drying slows down; the
 * probe's reading per kelvin, k; and by what share the sun is stronger or weaker just now than it mostly is, c.
 *
 * <pre>
 *   dm/dt   = - (b medium(t) + (l lit(t) + s (1 + c) sun(t)) leaf(t)) min(1, m/n)
 *   dl/dt   = g l,  ds/dt = g s,  dc/dt = - c / {@value #CLOUD_HOURS} h + white noise
 *   reading = m + k (T - {@value #REFERENCE_C} C) + noise
 * </pre>
 *
 * <p>{@link AirPull} gives leaf(t) and medium(t), the vapour pressure deficits that draw the water (Dalton 1802: evaporation goes
 * with the deficit); {@link LightPlan} gives lit(t) and sun(t). Which of the two lights a bench has shows within a day. The
 * falling rate near dry is the second stage of drying of any porous medium (constant-rate, then falling-rate period). Clouds are a
 * share that goes back to nothing by itself (Ornstein and Uhlenbeck 1930): an hour's shade says little of the afternoon, and
 * nothing of tomorrow, so it must not be taken for what the leaves are like.
 * Everything but the level outlives a watering, so that yesterday's noon is known this morning, and may wander slowly, so
 * the fit forgets.
 *
 * <p>Moisture is a fraction of container capacity, rates are per hour, temperature in C. Causal, deterministic, constant
 * time a reading. <b>Not thread-safe.</b>
 */
public final class DryingFit {
    /** Temperature at which a calibration is taken to hold; our choice. */
    public static final double REFERENCE_C = 20;

    static final int LEVEL = 0;
    static final int MEDIUM = 1;
    static final int LAMP = 2;
    static final int SUN = 3;
    static final int GROWTH = 4;
    static final int KNEE = 5;
    static final int KELVIN = 6;
    static final int CLOUD = 7;
    static final int SIZE = 8;

    static final double MS_PER_HOUR = 3_600_000.0;
    /** Longest step of integration, so that a long gap is still integrated over light and dark rightly. */
    private static final double LONGEST_STEP_HOURS = 0.5;

    /** How long a cloud's shade lasts, h: after that long a third of what the light is short of the usual is left; our choice. */
    private static final double CLOUD_HOURS = 1.5;

    private static final double[] LOWEST = {-1, 2e-4, 0, 0, -0.05, 0.2, -0.02, -0.9};
    private static final double[] HIGHEST = {2, 0.3, 0.5, 0.5, 0.3, 0.75, 0.02, 0.9};

    private final double[] state = new double[SIZE];
    private final double[][] covariance = new double[SIZE][SIZE];
    private final double[] slope = new double[SIZE];
    private final DryingPrior prior;
    private long lastMs;
    private boolean started;
    private long sinceMs;
    private double startLevel;
    private double startVariance;
    private int used;

    /** A fit that knows only what is usual. */
    public DryingFit(DryingPrior prior) {
        this.prior = prior;
        assume(MEDIUM, prior.mediumPerHour(), prior.mediumDoubt());
        assume(LAMP, prior.lampPerHour(), prior.leafDoubt());
        assume(SUN, prior.sunPerHour(), prior.leafDoubt());
        assume(GROWTH, prior.growthPerDay(), prior.growthDoubt());
        assume(KNEE, prior.knee(), prior.kneeDoubt());
        assume(KELVIN, prior.perKelvin(), prior.perKelvinDoubt());
        assume(CLOUD, 0, prior.cloudShare());
        covariance[LAMP][SUN] = prior.leafTrade() * square(prior.leafDoubt());
        covariance[SUN][LAMP] = covariance[LAMP][SUN];
    }

    private void assume(int which, double value, double doubt) {
        state[which] = value;
        covariance[which][which] = square(doubt);
    }

    /** A copy that goes on by itself. */
    public DryingFit copy() {
        var copy = new DryingFit(prior);
        System.arraycopy(state, 0, copy.state, 0, SIZE);
        for (int i = 0; i < SIZE; i++) {
            System.arraycopy(covariance[i], 0, copy.covariance[i], 0, SIZE);
        }
        copy.lastMs = lastMs;
        copy.started = started;
        copy.sinceMs = sinceMs;
        copy.startLevel = startLevel;
        copy.startVariance = startVariance;
        copy.used = used;
        return copy;
    }

    /**
     * Takes a reading that the filter did not put aside.
     *
     * @param timeMs event time; one not newer than the last changes nothing
     * @param value moisture
     * @param noise standard deviation of a single reading
     * @param temperatureC at the probe; NaN when unknown
     */
    public void accept(long timeMs, double value, double noise, double temperatureC, LightPlan light, AirPull air) {
        if (!started) {
            begin(timeMs, value, noise);
            return;
        }
        if (timeMs <= lastMs) {
            return;
        }
        advance(timeMs, light, air);
        correct(value, noise, temperatureC);
        used++;
    }

    /**
     * A watering has settled: what was lost before no longer counts, and the rate may have changed.
     *
     * @param timeMs from when on drying counts
     * @param level moisture then
     * @param spread its standard deviation
     */
    public void restart(long timeMs, double level, double spread) {
        setLevel(timeMs, level, spread);
        for (int i = MEDIUM; i <= SUN; i++) {
            covariance[i][i] += square(prior.rateChangeAtWatering() * state[i]);
        }
        since(timeMs);
    }

    /**
     * The level was set anew by something that is not drying: a watering under way, a probe lifted or put back.
     *
     * @param timeMs event time
     * @param level moisture then
     * @param spread its standard deviation
     */
    public void setLevel(long timeMs, double level, double spread) {
        if (!started) {
            begin(timeMs, level, spread);
            return;
        }
        for (int i = 0; i < SIZE; i++) {
            covariance[LEVEL][i] = 0;
            covariance[i][LEVEL] = 0;
        }
        startLevel += level - state[LEVEL];
        state[LEVEL] = level;
        covariance[LEVEL][LEVEL] = square(spread);
        lastMs = Math.max(lastMs, timeMs);
    }

    private void begin(long timeMs, double value, double noise) {
        started = true;
        lastMs = timeMs;
        state[LEVEL] = value;
        covariance[LEVEL][LEVEL] = square(noise);
        since(timeMs);
    }

    private void since(long timeMs) {
        sinceMs = timeMs;
        startLevel = state[LEVEL];
        startVariance = covariance[LEVEL][LEVEL];
        used = 0;
    }

    /** Goes on to a time without a reading. */
    void advance(long toMs, LightPlan light, AirPull air) {
        while (lastMs < toMs) {
            long change = light.nextChangeMs(lastMs);
            long end = Math.min(toMs, Math.min(change, lastMs + (long) (LONGEST_STEP_HOURS * MS_PER_HOUR)));
            long middle = lastMs + (end - lastMs) / 2;
            double leaf = air.leaf(middle);
            step(
                    (end - lastMs) / MS_PER_HOUR,
                    air.medium(middle),
                    light.isLit(middle) ? leaf : 0,
                    light.sun(middle) * leaf);
            lastMs = end;
        }
    }

    private void step(double hours, double medium, double lamp, double sun) {
        double dryness = dryness();
        double shining = sun * (1 + state[CLOUD]);
        double full = (state[MEDIUM] * medium + state[LAMP] * lamp + state[SUN] * shining) * hours;
        boolean falling = state[LEVEL] < state[KNEE];
        slope[LEVEL] = falling ? Math.max(0, 1 - full / state[KNEE]) : 1;
        slope[MEDIUM] = -medium * hours * dryness;
        slope[LAMP] = -lamp * hours * dryness;
        slope[SUN] = -shining * hours * dryness;
        slope[CLOUD] = -state[SUN] * sun * hours * dryness;
        slope[KNEE] = falling ? full * dryness / state[KNEE] : 0;
        double days = hours / 24;
        double grown = Math.exp(state[GROWTH] * days);
        double passed = Math.exp(-hours / CLOUD_HOURS);
        spread(grown, state[LAMP] * days, state[SUN] * days, passed);
        state[LEVEL] -= full * dryness;
        state[LAMP] *= grown;
        state[SUN] *= grown;
        state[CLOUD] *= passed;
        covariance[CLOUD][CLOUD] += square(prior.cloudShare()) * (1 - passed * passed);
        wander(hours);
    }

    private void wander(double hours) {
        covariance[LEVEL][LEVEL] += square(prior.levelWander()) * hours;
        covariance[MEDIUM][MEDIUM] += square(prior.mediumWander() * state[MEDIUM]) * hours;
        // What leaves are like tells in both lights together.
        double leaves = square(prior.leafWander()) * hours;
        covariance[LAMP][LAMP] += leaves * square(state[LAMP]);
        covariance[SUN][SUN] += leaves * square(state[SUN]);
        covariance[LAMP][SUN] += leaves * state[LAMP] * state[SUN];
        covariance[SUN][LAMP] = covariance[LAMP][SUN];
    }

    /**
     * P := F P F', where F is the unit matrix but for the rows of the level and of the leaves. The level's row of F has no part of
     * growth and kelvin. Most of a replay is spent here.
     */
    private void spread(double grown, double lampByGrowth, double sunByGrowth, double passed) {
        double byLevel = slope[LEVEL];
        double byMedium = slope[MEDIUM];
        double byLamp = slope[LAMP];
        double bySun = slope[SUN];
        double byKnee = slope[KNEE];
        double byCloud = slope[CLOUD];
        double[] ofLevel = covariance[LEVEL];
        double[] ofMedium = covariance[MEDIUM];
        double[] ofLamp = covariance[LAMP];
        double[] ofSun = covariance[SUN];
        double[] ofGrowth = covariance[GROWTH];
        double[] ofKnee = covariance[KNEE];
        double[] ofCloud = covariance[CLOUD];
        for (int j = 0; j < SIZE; j++) {
            double level = byLevel * ofLevel[j]
                    + byMedium * ofMedium[j]
                    + byLamp * ofLamp[j]
                    + bySun * ofSun[j]
                    + byKnee * ofKnee[j]
                    + byCloud * ofCloud[j];
            double lamp = grown * ofLamp[j] + lampByGrowth * ofGrowth[j];
            double sun = grown * ofSun[j] + sunByGrowth * ofGrowth[j];
            ofLevel[j] = level;
            ofLamp[j] = lamp;
            ofSun[j] = sun;
            ofCloud[j] *= passed;
        }
        for (double[] row : covariance) {
            double level = byLevel * row[LEVEL]
                    + byMedium * row[MEDIUM]
                    + byLamp * row[LAMP]
                    + bySun * row[SUN]
                    + byKnee * row[KNEE]
                    + byCloud * row[CLOUD];
            double lamp = grown * row[LAMP] + lampByGrowth * row[GROWTH];
            double sun = grown * row[SUN] + sunByGrowth * row[GROWTH];
            row[LEVEL] = level;
            row[LAMP] = lamp;
            row[SUN] = sun;
            row[CLOUD] *= passed;
        }
    }

    private void correct(double value, double noise, double temperatureC) {
        double kelvin = Double.isNaN(temperatureC) ? 0 : temperatureC - REFERENCE_C;
        double[] cross = new double[SIZE];
        for (int i = 0; i < SIZE; i++) {
            cross[i] = covariance[i][LEVEL] + kelvin * covariance[i][KELVIN];
        }
        double total = cross[LEVEL] + kelvin * cross[KELVIN] + square(noise);
        double deviation = value - state[LEVEL] - kelvin * state[KELVIN];
        // Huber: beyond 2.5 standard deviations the pull no longer grows.
        double limit = 2.5 * Math.sqrt(total);
        double pull = Math.max(-limit, Math.min(limit, deviation));
        for (int i = 0; i < SIZE; i++) {
            state[i] += cross[i] / total * pull;
        }
        for (int i = 0; i < SIZE; i++) {
            for (int j = 0; j < SIZE; j++) {
                covariance[i][j] -= cross[i] * cross[j] / total;
            }
        }
        keepWithin();
    }

    /**
     * Brings what was pulled beyond its bound back to it, and takes along by their covariances the numbers it goes with: the
     * projection method for a filter under constraints, see N. Gupta, arXiv 0902.1565. Held back alone, the lamps' part at nothing
     * left the sun's part to rise with every reading of a place that does not dry.
     */
    private void keepWithin() {
        for (int i = MEDIUM; i < SIZE; i++) {
            double back = within(i) - state[i];
            if (back != 0 && covariance[i][i] > 0) {
                double share = back / covariance[i][i];
                for (int j = 0; j < SIZE; j++) {
                    state[j] += share * covariance[i][j];
                }
            }
        }
        for (int i = 0; i < SIZE; i++) {
            state[i] = within(i);
        }
    }

    private double within(int which) {
        return Math.max(LOWEST[which], Math.min(HIGHEST[which], state[which]));
    }

    private double dryness() {
        return Math.max(0, Math.min(1, state[LEVEL] / state[KNEE]));
    }

    private static double square(double value) {
        return value * value;
    }

    /** Whether a reading has come yet. */
    public boolean isStarted() {
        return started;
    }

    /** Moisture with the temperature's part taken out; meaningless before the first reading. */
    public double level() {
        return state[LEVEL];
    }

    /** Standard deviation of {@link #level()}. */
    public double spread() {
        return Math.sqrt(Math.max(0, covariance[LEVEL][LEVEL]));
    }

    /** Drying rate in even light, without sun, at the usual pull of the air and before it slows down, per hour. */
    public double lightRate() {
        return state[MEDIUM] + state[LAMP];
    }

    /** Standard error of {@link #lightRate()}. */
    public double lightRateError() {
        return error(1, 1, 0);
    }

    /** Mean drying rate over the coming day before it slows down, per hour. */
    public double dayRate(LightPlan light, AirPull air) {
        double[] day = day(light, air);
        return day[0] * state[MEDIUM] + day[1] * state[LAMP] + day[2] * state[SUN];
    }

    /** Standard error of {@link #dayRate}. */
    public double dayRateError(LightPlan light, AirPull air) {
        double[] day = day(light, air);
        return error(day[0], day[1], day[2]);
    }

    /** Means over the coming day of the pull on the medium, and on leaves in even light and in the sun. */
    private double[] day(LightPlan light, AirPull air) {
        double[] sums = new double[3];
        for (int hour = 0; hour < 24; hour++) {
            long time = lastMs + Math.round((hour + 0.5) * MS_PER_HOUR);
            double leaf = air.leaf(time) / 24;
            sums[0] += air.medium(time) / 24;
            sums[1] += light.isLit(time) ? leaf : 0;
            sums[2] += leaf * light.sun(time);
        }
        return sums;
    }

    /** Drying rate in the dark at the usual pull of the air and before it slows down, per hour. */
    public double darkRate() {
        return state[MEDIUM];
    }

    /** Standard error of {@link #darkRate()}. */
    public double darkRateError() {
        return error(1, 0, 0);
    }

    private double error(double medium, double lamp, double sun) {
        double[] by = {0, medium, lamp, sun};
        double sum = 0;
        for (int i = MEDIUM; i <= SUN; i++) {
            for (int j = MEDIUM; j <= SUN; j++) {
                sum += by[i] * by[j] * covariance[i][j];
            }
        }
        return Math.sqrt(Math.max(0, sum));
    }

    /** Moisture below which drying slows down in proportion to what is left. */
    public double knee() {
        return state[KNEE];
    }

    /** Drying rate right now, per hour, positive while it dries. */
    public double rate(LightPlan light, AirPull air) {
        double leaf = (light.isLit(lastMs) ? state[LAMP] : 0) + light.sun(lastMs) * state[SUN] * (1 + state[CLOUD]);
        return (state[MEDIUM] * air.medium(lastMs) + leaf * air.leaf(lastMs)) * dryness();
    }

    /** Standard error of {@link #rate}. */
    public double rateError(LightPlan light, AirPull air) {
        double leaf = air.leaf(lastMs);
        return dryness() * error(air.medium(lastMs), light.isLit(lastMs) ? leaf : 0, light.sun(lastMs) * leaf);
    }

    /** What the probe reads more per kelvin, with the moisture unchanged. */
    public double perKelvin() {
        return state[KELVIN];
    }

    /** What a probe at that temperature reads too much; 0 when the temperature is unknown. */
    double temperaturePart(double temperatureC) {
        return Double.isNaN(temperatureC) ? 0 : state[KELVIN] * (temperatureC - REFERENCE_C);
    }

    /** Standard error of {@link #perKelvin()}; large until cycles of the temperature have shown it. */
    public double perKelvinError() {
        return Math.sqrt(Math.max(0, covariance[KELVIN][KELVIN]));
    }

    /** From when on drying counts: the last watering, or the first reading. */
    public long sinceMs() {
        return sinceMs;
    }

    /** Moisture lost since then. */
    public double lost() {
        return startLevel - state[LEVEL];
    }

    /** Standard deviation of {@link #lost()}, gain errors of the probe not included. */
    public double lostError() {
        return Math.sqrt(Math.max(0, startVariance + covariance[LEVEL][LEVEL]));
    }

    /** Readings used since then. */
    public int used() {
        return used;
    }

    /** Event time up to which the fit has come. */
    public long lastMs() {
        return lastMs;
    }
}
