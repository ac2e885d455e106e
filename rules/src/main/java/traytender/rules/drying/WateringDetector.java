package traytender.rules.drying;

import org.jspecify.annotations.Nullable;
import traytender.rules.drying.MoistureFilter.Fate;

/**
 * Finds waterings in one probe's filtered level.
 *
 * <p>A watering is a rise of at least {@value #SMALLEST_RISE} within {@value #WINDOW_MINUTES} minutes: a temperature swing
 * is slower, noise and spikes do not pass the {@link MoistureFilter}. It counts as settled {@value #DRAINING_MINUTES}
 * minutes after its start, or after its last rise when that is later. A probe that is put back after it was
 * lifted rises too: a rise that only brings back the level before a sudden fall is no watering. Numbers are our choice.
 *
 * <p>Causal, deterministic, constant time a reading. <b>Not thread-safe.</b>
 */
public final class WateringDetector {
    /** Moisture a cell must gain; a rise of fewer points is none by the site's own measure of a missed watering. */
    public static final double SMALLEST_RISE = 0.04;

    static final int WINDOW_MINUTES = 90;
    static final int DRAINING_MINUTES = 45;
    private static final long MINUTE_MS = 60_000L;
    private static final long BUCKET_MS = 5 * MINUTE_MS;
    private static final int BUCKETS = WINDOW_MINUTES / 5;
    /** How near a level must come back to that before a fall to be the same medium, not more water. */
    private static final double SAME = 0.08;
    /** How long after a sudden fall a rise may be a probe put back. */
    private static final long PUT_BACK_MS = 24 * 60 * MINUTE_MS;

    private final double[] lowest = new double[BUCKETS];
    private final long[] bucketMs = new long[BUCKETS];
    private @Nullable Watering last;
    private long lastRiseMs = Long.MIN_VALUE;
    private double levelBeforeFall = Double.NaN;
    private long fallMs = Long.MIN_VALUE;

    /** A detector that has heard nothing. */
    public WateringDetector() {
        java.util.Arrays.fill(bucketMs, Long.MIN_VALUE);
    }

    /** A copy that goes on by itself. */
    public WateringDetector copy() {
        var copy = new WateringDetector();
        System.arraycopy(lowest, 0, copy.lowest, 0, BUCKETS);
        System.arraycopy(bucketMs, 0, copy.bucketMs, 0, BUCKETS);
        copy.last = last;
        copy.lastRiseMs = lastRiseMs;
        copy.levelBeforeFall = levelBeforeFall;
        copy.fallMs = fallMs;
        return copy;
    }

    /** What a reading meant for the waterings. */
    public enum Step {
        /** Nothing. */
        NONE,
        /** A watering began, or goes on rising or draining. */
        RISING,
        /** A watering has just settled: drying counts from now on. */
        SETTLED,
        /** The level fell at once, as when a probe is lifted. */
        FELL,
        /** The level came back from such a fall. */
        PUT_BACK
    }

    /**
     * Takes what the filter made of a reading.
     *
     * @param timeMs event time of the reading
     * @param fate what the filter said of it
     * @param filter the filter after it
     */
    public Step accept(long timeMs, Fate fate, MoistureFilter filter) {
        if (fate == Fate.IGNORED || fate == Fate.HELD) {
            return isRising() ? Step.RISING : Step.NONE;
        }
        if (fate == Fate.BEGUN_ANEW) {
            forgetBuckets();
            remember(timeMs, filter.level());
            return Step.NONE;
        }
        if (fate == Fate.JUMPED_DOWN && !isRising()) {
            return fall(filter);
        }
        if (fate == Fate.JUMPED_UP && isPutBack(timeMs, filter)) {
            forgetBuckets();
            remember(timeMs, filter.level());
            fallMs = Long.MIN_VALUE;
            return Step.PUT_BACK;
        }
        if (isRising()) {
            return goOn(timeMs, filter);
        }
        double before = fate == Fate.JUMPED_UP ? filter.levelBeforeJump() : lowestInWindow(timeMs);
        remember(timeMs, filter.level());
        double enough = Math.max(SMALLEST_RISE, 4 * filter.spread());
        if (Double.isNaN(before) || filter.level() - before < enough) {
            return Step.NONE;
        }
        long start = fate == Fate.JUMPED_UP ? filter.jumpMs() : timeMs;
        begin(start, timeMs, before, filter);
        return Step.RISING;
    }

    private void begin(long start, long now, double before, MoistureFilter filter) {
        last = new Watering(
                start, Long.MAX_VALUE, before, filter.level(), filter.level(), Math.sqrt(2) * filter.spread());
        lastRiseMs = now;
    }

    private Step goOn(long timeMs, MoistureFilter filter) {
        Watering now = java.util.Objects.requireNonNull(last);
        double level = filter.level();
        if (level > now.peak() + 2 * filter.spread()) {
            lastRiseMs = timeMs;
        }
        double peak = Math.max(now.peak(), level);
        boolean settled = timeMs - now.startMs() >= DRAINING_MINUTES * MINUTE_MS
                && timeMs - lastRiseMs >= DRAINING_MINUTES * MINUTE_MS / 3;
        last = new Watering(
                now.startMs(), settled ? timeMs : Long.MAX_VALUE, now.before(), peak, level, now.riseError());
        if (!settled) {
            return Step.RISING;
        }
        forgetBuckets();
        remember(timeMs, level);
        return Step.SETTLED;
    }

    private Step fall(MoistureFilter filter) {
        levelBeforeFall = filter.levelBeforeJump();
        fallMs = filter.jumpMs();
        forgetBuckets();
        remember(filter.lastMs(), filter.level());
        return Step.FELL;
    }

    private boolean isPutBack(long timeMs, MoistureFilter filter) {
        return fallMs != Long.MIN_VALUE
                && timeMs - fallMs < PUT_BACK_MS
                && filter.level() < levelBeforeFall + SAME
                && filter.levelBeforeJump() < levelBeforeFall - SAME;
    }

    private void remember(long timeMs, double level) {
        long bucket = Math.floorDiv(timeMs, BUCKET_MS);
        int slot = (int) Math.floorMod(bucket, (long) BUCKETS);
        if (bucketMs[slot] != bucket) {
            bucketMs[slot] = bucket;
            lowest[slot] = level;
        } else {
            lowest[slot] = Math.min(lowest[slot], level);
        }
    }

    private double lowestInWindow(long timeMs) {
        long oldest = Math.floorDiv(timeMs, BUCKET_MS) - BUCKETS;
        double found = Double.NaN;
        for (int i = 0; i < BUCKETS; i++) {
            if (bucketMs[i] > oldest && !(lowest[i] >= found)) {
                found = lowest[i];
            }
        }
        return found;
    }

    private void forgetBuckets() {
        java.util.Arrays.fill(bucketMs, Long.MIN_VALUE);
    }

    /** Whether a watering has begun that has not settled. */
    public boolean isRising() {
        return last != null && !last.isSettled();
    }

    /** The newest watering; null when none was seen. */
    public @Nullable Watering last() {
        return last;
    }
}
