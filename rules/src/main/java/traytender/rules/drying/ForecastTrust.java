package traytender.rules.drying;

import java.util.Arrays;

/**
 * How far a place's own forecasts have been off, beside what the fit said they might be: what its doubt is to be multiplied with, so
 * that an interval holds the truth as often as it says. Once an hour the level {@value #AHEAD_HOURS} hours on is foretold and, when that
 * time comes without a watering, compared. The mean square of errors over doubts goes from what is usual to the place's own as
 * comparisons come in; older ones are forgotten. Constant time and memory. <b>Not thread-safe.</b>
 */
final class ForecastTrust {
    static final int AHEAD_HOURS = 4;
    private static final long HOUR_MS = 3_600_000;
    /** Mean square before anything is known, and how many comparisons it is worth; our choice, tried on made-up benches. */
    private static final double USUAL = 1;

    private static final double USUAL_WEIGHT = 1;
    /** Forecasts of neighbouring hours share most of their errors, so each counts for its share only. */
    private static final double WEIGHT = 1.0 / AHEAD_HOURS;
    /** What is left of a comparison's weight an hour later: half of it after two days. */
    private static final double KEEPS = 0.985;
    /** One comparison gone wrong, a probe moved or a lamp broken, must not undo all others: larger ones count as this. */
    private static final double MOST = 5;

    private final long[] dueMs = new long[AHEAD_HOURS + 1];
    private final double[] level = new double[AHEAD_HOURS + 1];
    private final double[] doubt = new double[AHEAD_HOURS + 1];
    private long madeMs = Long.MIN_VALUE;
    private double squares;
    private double weights;

    ForecastTrust() {
        forget();
    }

    ForecastTrust copy() {
        var copy = new ForecastTrust();
        System.arraycopy(dueMs, 0, copy.dueMs, 0, dueMs.length);
        System.arraycopy(level, 0, copy.level, 0, level.length);
        System.arraycopy(doubt, 0, copy.doubt, 0, doubt.length);
        copy.madeMs = madeMs;
        copy.squares = squares;
        copy.weights = weights;
        return copy;
    }

    /** The place was watered or its level set anew: what was foretold can no longer come. */
    void forget() {
        Arrays.fill(dueMs, Long.MAX_VALUE);
    }

    /** Compares what is due and foretells anew once an hour; the fit is not changed. */
    void look(DryingFit fit, LightPlan light, AirPull air) {
        long now = fit.lastMs();
        for (int i = 0; i < dueMs.length; i++) {
            if (dueMs[i] <= now) {
                // Late by a gap in the readings is not foretold for this time.
                if (now - dueMs[i] < HOUR_MS / 2) {
                    compare((fit.level() - level[i]) / Math.hypot(doubt[i], fit.spread()));
                }
                dueMs[i] = Long.MAX_VALUE;
            }
        }
        if (madeMs == Long.MIN_VALUE || now - madeMs >= HOUR_MS) {
            foretell(fit, now, light, air);
        }
    }

    private void compare(double off) {
        double limited = Math.min(MOST, Math.abs(off));
        squares = KEEPS * squares + WEIGHT * limited * limited;
        weights = KEEPS * weights + WEIGHT;
    }

    private void foretell(DryingFit fit, long now, LightPlan light, AirPull air) {
        madeMs = now;
        for (int i = 0; i < dueMs.length; i++) {
            if (dueMs[i] == Long.MAX_VALUE) {
                var ahead = fit.copy();
                dueMs[i] = now + AHEAD_HOURS * HOUR_MS;
                ahead.advance(dueMs[i], light, air);
                level[i] = ahead.level();
                doubt[i] = ahead.spread();
                return;
            }
        }
    }

    /** What the fit's doubt of a time to come is to be multiplied with. */
    double factor() {
        return Math.sqrt((USUAL_WEIGHT * USUAL + squares) / (USUAL_WEIGHT + weights));
    }
}
