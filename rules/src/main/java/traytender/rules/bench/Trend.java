package traytender.rules.bench;

import java.util.Arrays;

/**
 * The past few hours of one number as means of five minutes each, for slopes and for what it was a while ago. Constant time a
 * value. <b>Not thread-safe.</b>
 */
final class Trend {
    private static final long BUCKET_MS = 300_000;
    private static final int BUCKETS = 48;
    private final double[] sums = new double[BUCKETS];
    private final int[] counts = new int[BUCKETS];
    private final long[] names = new long[BUCKETS];

    Trend() {
        Arrays.fill(names, Long.MIN_VALUE);
    }

    Trend copy() {
        var copy = new Trend();
        System.arraycopy(sums, 0, copy.sums, 0, BUCKETS);
        System.arraycopy(counts, 0, copy.counts, 0, BUCKETS);
        System.arraycopy(names, 0, copy.names, 0, BUCKETS);
        return copy;
    }

    void add(long timeMs, double value) {
        long bucket = Math.floorDiv(timeMs, BUCKET_MS);
        int slot = (int) Math.floorMod(bucket, (long) BUCKETS);
        if (names[slot] != bucket) {
            names[slot] = bucket;
            sums[slot] = 0;
            counts[slot] = 0;
        }
        sums[slot] += value;
        counts[slot]++;
    }

    /**
     * Change per hour by least squares over the last minutes; NaN when fewer than three means, or less than half of the span,
     * are there.
     */
    double perHour(long nowMs, int minutes) {
        long newest = Math.floorDiv(nowMs, BUCKET_MS);
        int span = minutes / 5;
        double n = 0;
        double sumX = 0;
        double sumY = 0;
        double sumXx = 0;
        double sumXy = 0;
        double lowest = Double.NaN;
        for (long bucket = newest; bucket > newest - span; bucket--) {
            int slot = (int) Math.floorMod(bucket, (long) BUCKETS);
            if (names[slot] != bucket) {
                continue;
            }
            double x = (bucket - newest) / 12.0;
            double y = sums[slot] / counts[slot];
            n++;
            sumX += x;
            sumY += y;
            sumXx += x * x;
            sumXy += x * y;
            lowest = x;
        }
        if (n < 3 || !(-lowest * 60 >= minutes / 2.0)) {
            return Double.NaN;
        }
        return (n * sumXy - sumX * sumY) / (n * sumXx - sumX * sumX);
    }

    /** The mean of the five minutes that lay so many minutes ago, or the nearest earlier one; NaN when none. */
    double ago(long timeMs, int minutes) {
        long bucket = Math.floorDiv(timeMs - minutes * 60_000L, BUCKET_MS);
        for (int back = 0; back < 6; back++) {
            int slot = (int) Math.floorMod(bucket - back, (long) BUCKETS);
            if (names[slot] == bucket - back) {
                return sums[slot] / counts[slot];
            }
        }
        return Double.NaN;
    }
}
