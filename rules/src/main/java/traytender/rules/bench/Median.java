package traytender.rules.bench;

import java.util.Arrays;

/** The median of the newest few values of one probe: lone spikes never pass. Constant time a value. <b>Not thread-safe.</b> */
final class Median {
    private final double[] values;
    private final double[] sorted;
    private int count;

    /** Of the newest {@code size} values, an odd number. */
    Median(int size) {
        values = new double[size];
        sorted = new double[size];
    }

    Median copy() {
        var copy = new Median(values.length);
        System.arraycopy(values, 0, copy.values, 0, values.length);
        copy.count = count;
        return copy;
    }

    void add(double value) {
        values[count % values.length] = value;
        count++;
    }

    /** NaN before the first value. */
    double get() {
        int held = Math.min(count, values.length);
        if (held == 0) {
            return Double.NaN;
        }
        System.arraycopy(values, 0, sorted, 0, held);
        Arrays.sort(sorted, 0, held);
        return held % 2 == 1 ? sorted[held / 2] : (sorted[held / 2 - 1] + sorted[held / 2]) / 2;
    }

    void clear() {
        count = 0;
    }
}
