package traytender.rules.drying;

import java.util.Arrays;

/**
 * How something runs over the day, learnt from the days seen: half-hour means of the last day, and what is to be expected of the
 * hours to come: the last day's value at that time of day, moved by how far today is from yesterday, less and less the further
 * ahead. Before a day has been seen, what is now goes over into the mean so far. Event time, constant time and memory. <b>Not
 * thread-safe.</b>
 */
public final class DayCourse {
    private static final long HALF_HOUR_MS = 1_800_000;
    private static final int SLOTS = 48;
    /** Over how many hours a difference from yesterday is forgotten; our choice: weather changes from day to part of day. */
    private static final double FORGETS_HOURS = 4;

    private final double[] means = new double[SLOTS];
    private final double[] before = new double[SLOTS];
    private final long[] halves = new long[SLOTS];
    private final int[] counts = new int[SLOTS];
    private long newest = Long.MIN_VALUE;
    private double sum;
    private int kept;

    /** A course of which nothing is known. */
    public DayCourse() {
        Arrays.fill(halves, Long.MIN_VALUE);
        Arrays.fill(before, Double.NaN);
    }

    /** A copy that goes on by itself. */
    public DayCourse copy() {
        var copy = new DayCourse();
        System.arraycopy(means, 0, copy.means, 0, SLOTS);
        System.arraycopy(before, 0, copy.before, 0, SLOTS);
        System.arraycopy(halves, 0, copy.halves, 0, SLOTS);
        System.arraycopy(counts, 0, copy.counts, 0, SLOTS);
        copy.newest = newest;
        copy.sum = sum;
        copy.kept = kept;
        return copy;
    }

    /** Takes a value, in order of time; NaN is none. */
    public void note(long timeMs, double value) {
        if (Double.isNaN(value)) {
            return;
        }
        long half = Math.floorDiv(timeMs, HALF_HOUR_MS);
        int slot = slot(half);
        if (halves[slot] != half) {
            boolean filled = halves[slot] != Long.MIN_VALUE;
            before[slot] = filled ? means[slot] : Double.NaN;
            sum -= filled ? means[slot] : 0;
            kept += filled ? 0 : 1;
            halves[slot] = half;
            means[slot] = 0;
            counts[slot] = 0;
        }
        sum -= counts[slot] == 0 ? 0 : means[slot];
        counts[slot]++;
        means[slot] += (value - means[slot]) / counts[slot];
        sum += means[slot];
        newest = half;
    }

    /** Mean over the last day, or what has been seen of it; NaN before the first value. */
    public double mean() {
        return kept == 0 ? Double.NaN : sum / kept;
    }

    /** What it was or is to be expected to be; NaN before the first value. */
    public double at(long timeMs) {
        if (newest == Long.MIN_VALUE) {
            return Double.NaN;
        }
        long half = Math.floorDiv(timeMs, HALF_HOUR_MS);
        int slot = slot(half);
        if (halves[slot] == half) {
            return means[slot];
        }
        int now = slot(newest);
        double ahead = (half - newest) / 2.0;
        if (ahead < 0) {
            return means[now];
        }
        double left = Math.exp(-ahead / FORGETS_HOURS);
        if (halves[slot] == Long.MIN_VALUE) {
            return mean() + left * (means[now] - mean());
        }
        double unlike = Double.isNaN(before[now]) ? 0 : means[now] - before[now];
        return means[slot] + left * unlike;
    }

    private static int slot(long half) {
        return (int) Math.floorMod(half, (long) SLOTS);
    }
}
