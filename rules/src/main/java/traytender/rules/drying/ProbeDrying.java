package traytender.rules.drying;

import org.jspecify.annotations.Nullable;
import traytender.rules.drying.MoistureFilter.Fate;

/**
 * Everything about the water at one moisture probe, put together: the filter, the waterings, the drying fit. One call a
 * reading; ask for the rest at any time.
 *
 * <p>Causal, deterministic, constant time a reading; a repeated or older reading changes nothing. <b>Not thread-safe.</b>
 */
public final class ProbeDrying {
    /** How far a level just after a jump may be off; our choice. */
    private static final double LEVEL_SPREAD = 0.01;

    private final MoistureFilter filter;
    private final WateringDetector waterings;
    private final DryingFit fit;
    private final FullReading full;
    private final ForecastTrust trust;
    private WateringDetector.Step lastStep = WateringDetector.Step.NONE;

    /** A probe that has said nothing. */
    public ProbeDrying() {
        this(DryingPrior.USUAL);
    }

    /** A probe that has said nothing, in a tray of which something is known. */
    public ProbeDrying(DryingPrior prior) {
        this(
                new MoistureFilter(),
                new WateringDetector(),
                new DryingFit(prior),
                new FullReading(),
                new ForecastTrust());
    }

    private ProbeDrying(
            MoistureFilter filter, WateringDetector waterings, DryingFit fit, FullReading full, ForecastTrust trust) {
        this.filter = filter;
        this.waterings = waterings;
        this.fit = fit;
        this.full = full;
        this.trust = trust;
    }

    /** A copy that goes on by itself. */
    public ProbeDrying copy() {
        var copy = new ProbeDrying(filter.copy(), waterings.copy(), fit.copy(), full.copy(), trust.copy());
        copy.lastStep = lastStep;
        return copy;
    }

    /**
     * Takes a reading.
     *
     * @param timeMs event time
     * @param moisture calibrated, a fraction of container capacity
     * @param temperatureC in the medium at the probe, or the nearest there is; NaN when unknown
     * @return what it meant for the waterings
     */
    public WateringDetector.Step accept(
            long timeMs, double moisture, double temperatureC, LightPlan light, AirPull air) {
        Fate fate = filter.accept(timeMs, moisture);
        WateringDetector.Step step = waterings.accept(timeMs, fate, filter);
        lastStep = step;
        if (fate == Fate.IGNORED || fate == Fate.HELD) {
            return step;
        }
        // While water goes in and drains, the level is not the fit's to explain.
        double spread = Math.max(LEVEL_SPREAD, filter.spread());
        double level = filter.level() - fit.temperaturePart(temperatureC);
        if (step == WateringDetector.Step.SETTLED) {
            fit.restart(timeMs, level, spread);
            trust.forget();
            full.settled(level);
        } else if (step != WateringDetector.Step.NONE || fate != Fate.USED) {
            fit.setLevel(timeMs, level, spread);
            trust.forget();
        } else {
            fit.accept(timeMs, moisture, filter.noise(), temperatureC, light, air);
            trust.look(fit, light, air);
        }
        return step;
    }

    /**
     * When the probe's place reaches a line, the next watering thought away; null when not within reach.
     *
     * @param line moisture
     * @param nowMs event time
     * @param spread how good such probes are, see {@link FullReading#spread}
     */
    public @Nullable DryingForecast forecast(double line, long nowMs, LightPlan light, AirPull air, double spread) {
        long from = Math.max(nowMs, fit.lastMs());
        return DryingForecast.of(
                fit, light, air, full.at(line, spread), from, full.error(line, spread), trust.factor());
    }

    /** The same, when no other probe tells how good this one is. */
    @Nullable
    DryingForecast forecast(double line, long nowMs, LightPlan light, AirPull air) {
        return forecast(line, nowMs, light, air, full.ownSpread());
    }

    /**
     * Whether the place is so near to a line that its probe cannot tell whether it is there: waiting makes nothing surer, however
     * slowly it dries, as in the night.
     *
     * @param line moisture
     * @param spread how good such probes are, see {@link FullReading#spread}
     */
    public boolean isAsGoodAs(double line, double spread) {
        return fit.level() - full.at(line, spread) <= full.error(line, spread);
    }

    /** The filtered level and its doubt. */
    public MoistureFilter filter() {
        return filter;
    }

    /** The drying fit. */
    public DryingFit fit() {
        return fit;
    }

    /** What the probe reads in full medium, learnt from waterings. */
    public FullReading full() {
        return full;
    }

    /** The newest watering; null when none was seen. */
    public @Nullable Watering lastWatering() {
        return waterings.last();
    }

    /** What the newest reading meant. */
    public WateringDetector.Step lastStep() {
        return lastStep;
    }
}
