package traytender.rules.drying;

/**
 * How fast one place of a tray dries, fitted as its readings come, with standard errors.
 *
 * <p>The model, an extended Kalman filter of four numbers: the level m; the logarithms of the rate r in the light and of
 * the rate d in the dark; and the probe's reading per kelvin, k.
 *
 * <pre>
 *   dm/dt   = - (light ? r day(t) : d) air(t) dryness(m)      dryness(m) = min(1, m / {@value #FALLING_BELOW})
 *   reading = m + k (T - {@value #REFERENCE_C} C) + noise
 * </pre>
 *
 * <p>Logarithms keep rates positive and their doubt relative. The rate may wander slowly, so the fit forgets; r, d and k
 * outlive a watering, so that yesterday's night is known this morning. The falling rate near dry is the second stage of
 * drying of any porous medium (constant-rate, then falling-rate period); where it begins is our choice.
 *
 * <p>Moisture is a fraction of container capacity, rates are per hour, temperature in C. Causal, deterministic, constant
 * time a reading. <b>Not thread-safe.</b>
 */
public final class DryingFit {
    /** Moisture below which drying slows down in proportion; our choice, between published curves of peat. */
    public static final double FALLING_BELOW = 0.52;
    /** Temperature at which a calibration is taken to hold; our choice. */
    public static final double REFERENCE_C = 20;

    static final int LEVEL = 0;
    static final int RATE = 1;
    static final int DARK = 2;
    static final int KELVIN = 3;
    static final int SIZE = 4;

    static final double MS_PER_HOUR = 3_600_000.0;
    /** Longest step of integration, so that a long gap is still integrated over light and dark rightly. */
    private static final double LONGEST_STEP_HOURS = 0.5;

    private final double[] state = new double[SIZE];
    private final double[][] covariance = new double[SIZE][SIZE];
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
        state[RATE] = Math.log(prior.ratePerHour());
        state[DARK] = Math.log(prior.darkRatePerHour());
        covariance[RATE][RATE] = square(prior.rateDoubt());
        covariance[DARK][DARK] = square(prior.darkDoubt());
        state[KELVIN] = prior.perKelvin();
        covariance[KELVIN][KELVIN] = square(prior.perKelvinDoubt());
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
        covariance[RATE][RATE] += square(prior.rateChangeAtWatering());
        covariance[DARK][DARK] += square(prior.rateChangeAtWatering());
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
            step((end - lastMs) / MS_PER_HOUR, light.isLit(middle), DayCurve.at(light, middle) * air.at(middle));
            lastMs = end;
        }
    }

    private void step(double hours, boolean lit, double pull) {
        double full = Math.exp(state[lit ? RATE : DARK]) * pull * hours;
        double lost = full * dryness(state[LEVEL]);
        double onLevel = state[LEVEL] < FALLING_BELOW ? Math.max(0, 1 - full / FALLING_BELOW) : 1;
        state[LEVEL] -= lost;
        spread(onLevel, lit ? -lost : 0, lit ? 0 : -lost);
        // Leaves grow, and what is beyond the medium's own drying grows with them.
        double leaves = Math.max(0, 1 - Math.exp(state[DARK] - state[RATE]));
        state[RATE] += prior.growthPerDay() / 24 * hours * leaves;
        covariance[LEVEL][LEVEL] += square(prior.levelWander()) * hours;
        covariance[RATE][RATE] += square(prior.rateWander()) * hours;
        covariance[DARK][DARK] += square(prior.darkWander()) * hours;
    }

    /** P := F P F', where F is the unit matrix but for the level's row. */
    private void spread(double onLevel, double onRate, double onDark) {
        double[] row = new double[SIZE];
        for (int i = 0; i < SIZE; i++) {
            row[i] = onLevel * covariance[LEVEL][i] + onRate * covariance[RATE][i] + onDark * covariance[DARK][i];
        }
        double corner = onLevel * row[LEVEL] + onRate * row[RATE] + onDark * row[DARK];
        for (int i = 1; i < SIZE; i++) {
            covariance[LEVEL][i] = row[i];
            covariance[i][LEVEL] = row[i];
        }
        covariance[LEVEL][LEVEL] = corner;
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
        keepInBounds();
    }

    private void keepInBounds() {
        state[RATE] = Math.max(Math.log(1e-4), Math.min(Math.log(0.5), state[RATE]));
        state[DARK] = Math.max(Math.log(1e-4), Math.min(Math.log(0.5), state[DARK]));
        state[KELVIN] = Math.max(-0.02, Math.min(0.02, state[KELVIN]));
    }

    private static double dryness(double level) {
        return Math.max(0, Math.min(1, level / FALLING_BELOW));
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

    /** Drying rate in the light at the usual pull of the air, per hour, positive; of a cell wetter than {@link #FALLING_BELOW}. */
    public double lightRate() {
        return Math.exp(state[RATE]);
    }

    /** Standard error of {@link #lightRate()}. */
    public double lightRateError() {
        return lightRate() * Math.sqrt(Math.max(0, covariance[RATE][RATE]));
    }

    /** Drying rate in the dark, as {@link #lightRate()}. */
    public double darkRate() {
        return Math.exp(state[DARK]);
    }

    /** Standard error of {@link #darkRate()}. */
    public double darkRateError() {
        return darkRate() * Math.sqrt(Math.max(0, covariance[DARK][DARK]));
    }

    /** Drying rate right now, per hour, positive while it dries. */
    public double rate(LightPlan light, AirPull air) {
        double base = light.isLit(lastMs) ? lightRate() : darkRate();
        return base * DayCurve.at(light, lastMs) * air.at(lastMs) * dryness(state[LEVEL]);
    }

    /** Standard error of {@link #rate}. */
    public double rateError(LightPlan light, AirPull air) {
        double relative = light.isLit(lastMs) ? lightRateError() / lightRate() : darkRateError() / darkRate();
        return rate(light, air) * relative;
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
