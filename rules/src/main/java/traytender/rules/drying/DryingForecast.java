package traytender.rules.drying;

/**
 * When a place of a tray will be down to a line, the next watering thought away.
 *
 * @param expectedMs event time at which it is most likely reached
 * @param earliestMs start of the 80 percent interval
 * @param latestMs end of the 80 percent interval; {@link Long#MAX_VALUE} when beyond what was looked at
 */
public record DryingForecast(long expectedMs, long earliestMs, long latestMs) {
    /** How far ahead is looked at all. */
    public static final int REACH_HOURS = 48;

    /** Two-sided 80 percent of a normal distribution. */
    private static final double EIGHTY = 1.2816;
    /** Steps of the look ahead; short beside the hours a forecast is about, then refined by a straight line. */
    private static final long STEP_MS = 600_000;

    /**
     * The forecast of a fit, or null when the line is not reached within {@value #REACH_HOURS} h or the fit has not begun.
     * Already below: all three are now, or the expected time is now with a later end when that is in doubt.
     *
     * @param line moisture
     * @param nowMs event time, not before the fit's last
     * @param probeError standard deviation of the probe's own calibration error near the line, which no filter can see
     * @param factor what the fit's doubt is multiplied with, from how its forecasts have come true
     */
    @org.jspecify.annotations.Nullable
    public static DryingForecast of(
            DryingFit fit, LightPlan light, AirPull air, double line, long nowMs, double probeError, double factor) {
        if (!fit.isStarted()) {
            return null;
        }
        var ahead = fit.copy();
        ahead.advance(nowMs, light, air);
        long end = nowMs + REACH_HOURS * 3_600_000L;
        var earliest = new Crossing(line, nowMs);
        var expected = new Crossing(line, nowMs);
        var latest = new Crossing(line, nowMs);
        long time = nowMs;
        while (true) {
            double spread = factor * ahead.spread();
            double doubt = EIGHTY * Math.sqrt(spread * spread + probeError * probeError);
            earliest.see(time, ahead.level() - doubt);
            expected.see(time, ahead.level());
            latest.see(time, ahead.level() + doubt);
            if (latest.isFound() || time >= end) {
                break;
            }
            time = Math.min(end, Math.min(time + STEP_MS, light.nextChangeMs(time)));
            ahead.advance(time, light, air);
        }
        return expected.isFound() ? new DryingForecast(expected.atMs, earliest.atMs, latest.atMs) : null;
    }

    /** Finds when a falling line passes a level. */
    private static final class Crossing {
        private final double line;
        private long atMs = Long.MAX_VALUE;
        private long beforeMs;
        private double before = Double.NaN;

        Crossing(double line, long nowMs) {
            this.line = line;
            this.beforeMs = nowMs;
        }

        void see(long timeMs, double value) {
            if (isFound()) {
                return;
            }
            if (value <= line) {
                double share = Double.isNaN(before) || before <= value ? 1 : (before - line) / (before - value);
                atMs = beforeMs + Math.round(share * (timeMs - beforeMs));
            }
            before = value;
            beforeMs = timeMs;
        }

        boolean isFound() {
            return atMs != Long.MAX_VALUE;
        }
    }
}
