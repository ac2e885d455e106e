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
    /**
     * Standard deviation of a cheap probe's calibration error, as a fraction of container capacity; our choice. It is what two
     * probes may differ by in the same medium, and no filter can take it out.
     */
    public static final double PROBE_ERROR = 0.010;

    /** How far a level just after a jump may be off; our choice. */
    private static final double LEVEL_SPREAD = 0.01;

    private final MoistureFilter filter;
    private final WateringDetector waterings;
    private final DryingFit fit;
    private WateringDetector.Step lastStep = WateringDetector.Step.NONE;

    /** A probe that has said nothing. */
    public ProbeDrying() {
        this(new MoistureFilter(), new WateringDetector(), new DryingFit(DryingPrior.USUAL));
    }

    private ProbeDrying(MoistureFilter filter, WateringDetector waterings, DryingFit fit) {
        this.filter = filter;
        this.waterings = waterings;
        this.fit = fit;
    }

    /** A copy that goes on by itself. */
    public ProbeDrying copy() {
        var copy = new ProbeDrying(filter.copy(), waterings.copy(), fit.copy());
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
        if (step == WateringDetector.Step.SETTLED) {
            fit.restart(timeMs, filter.level(), spread);
        } else if (step != WateringDetector.Step.NONE || fate != Fate.USED) {
            fit.setLevel(timeMs, filter.level(), spread);
        } else {
            fit.accept(timeMs, moisture, filter.noise(), temperatureC, light, air);
        }
        return step;
    }

    /**
     * When the probe's place reaches a line, the next watering thought away; null when not within reach.
     *
     * @param line moisture
     * @param nowMs event time
     */
    public @Nullable DryingForecast forecast(double line, long nowMs, LightPlan light, AirPull air) {
        return DryingForecast.of(fit, light, air, line, Math.max(nowMs, fit.lastMs()), PROBE_ERROR);
    }

    /** The filtered level and its doubt. */
    public MoistureFilter filter() {
        return filter;
    }

    /** The drying fit. */
    public DryingFit fit() {
        return fit;
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
