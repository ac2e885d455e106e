package traytender.ingest.nursery.score;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A 95 percent confidence interval.
 *
 * @param low its lower end
 * @param high its upper end
 */
public record Bounds(double low, double high) {
    private static final double Z = 1.959964;
    private static final int RESAMPLES = 1000;

    /** Of a proportion, by Wilson's score interval (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927); 0 to 1 when nothing was tried. */
    public static Bounds ofProportion(int hits, int tries) {
        if (tries == 0) {
            return new Bounds(0, 1);
        }
        double share = (double) hits / tries;
        double centre = share + Z * Z / (2 * tries);
        double half = Z * Math.sqrt(share * (1 - share) / tries + Z * Z / (4.0 * tries * tries));
        double scale = 1 + Z * Z / tries;
        return new Bounds(Math.max(0, (centre - half) / scale), Math.min(1, (centre + half) / scale));
    }

    /** Of what a count would be on average, by Byar's approximation to Poisson's bounds (Breslow and Day, IARC Sci. Publ. 82, 1987, equation 2.10). */
    public static Bounds ofCount(int count) {
        double low = count == 0 ? 0 : count * Math.pow(1 - 1 / (9.0 * count) - Z / (3 * Math.sqrt(count)), 3);
        double more = count + 1.0;
        return new Bounds(low, more * Math.pow(1 - 1 / (9 * more) + Z / (3 * Math.sqrt(more)), 3));
    }

    /** Of a median, by the percentile bootstrap (B. Efron, Ann. Stat. 7, 1979) with a fixed seed; NaN when there is nothing. */
    public static Bounds ofMedian(List<Double> values) {
        if (values.isEmpty()) {
            return new Bounds(Double.NaN, Double.NaN);
        }
        var chance = new SplittableRandom(20260314);
        var medians = new double[RESAMPLES];
        for (int i = 0; i < RESAMPLES; i++) {
            double[] again = chance.ints(values.size(), 0, values.size())
                    .mapToDouble(values::get)
                    .toArray();
            medians[i] = median(again);
        }
        Arrays.sort(medians);
        return new Bounds(medians[RESAMPLES / 40], medians[RESAMPLES - 1 - RESAMPLES / 40]);
    }

    /** The median; NaN when there is nothing. */
    public static double median(double... values) {
        if (values.length == 0) {
            return Double.NaN;
        }
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        int middle = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
    }
}
