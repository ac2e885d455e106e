package traytender.rules.night;

import java.util.ArrayList;
import java.util.List;

/**
 * How low the air will go in a calm, clear night, by the method of FAO Environment and Natural Resources Series 10 (Snyder and de
 * Melo-Abreu 2005): from the air temperature T0 and the dew point Td two hours after sunset, in two steps, first the lowest
 * on T0, then what is left over on Td. Fitted on nights without wind, cloud, fog or rain; it holds for such nights.
 *
 * <p>It begins with the ten nights of the book's own example and takes in the site's nights as they pass, each of which
 * counts {@value #OWN_WEIGHT} times, the book's the less the more of them there are (our choice). The {@value #REMEMBERED} newest are kept. <b>Not thread-safe.</b>
 */
public final class NightLow {
    /** How many of the site's nights are kept. */
    public static final int REMEMBERED = 60;

    static final int OWN_WEIGHT = 3;
    /** Of a leaf below the air on a clear, calm night, C; common practice, no source that could be opened. */
    public static final double LEAF_BELOW_AIR_C = 2;
    /** Of the air's fall from two hours before sunset to two hours after it, before the site has shown its own; our choice. */
    private static final double USUAL_FALL_C = 5;

    /** What a rough forecast adds to the doubt, C; our choice. */
    private static final double ROUGH_C = 2.5;
    /** By how much places differ from the book's, C; our choice. */
    private static final double SITE_DOUBT_C = 3;

    private static final double[][] BOOK = {
        {3.2, -4.2, -3.1}, {0.8, -8.8, -5}, {0.2, -6.5, -6.3}, {2.6, -6.2, -5.4}, {4.4, -6.1, -4},
        {5.2, 2.6, -2.5}, {2.7, -0.7, -4.8}, {1.2, -1.7, -5}, {4.5, -1.2, -4.4}, {5.6, 0.1, -3.3}
    };

    private final List<double[]> own = new ArrayList<>();
    private double fallSum;
    private int falls;
    private Line byAir = new Line(0, 0);
    private Line byDew = new Line(0, 0);
    private double error;

    private record Line(double constant, double slope) {
        double at(double value) {
            return constant + slope * value;
        }
    }

    /** Begins with the book's ten nights. */
    public NightLow() {
        fit();
    }

    /** A copy that goes on by itself. */
    public NightLow copy() {
        var copy = new NightLow();
        copy.own.addAll(own);
        copy.fallSum = fallSum;
        copy.falls = falls;
        copy.fit();
        return copy;
    }

    /**
     * The lowest to expect.
     *
     * @param airC two hours after sunset
     * @param dewPointC then; NaN when there is no humidity probe: then by the air alone
     */
    public double lowest(double airC, double dewPointC) {
        double first = byAir.at(airC);
        return Double.isNaN(dewPointC) ? first : first + byDew.at(dewPointC);
    }

    /** Standard error of {@link #lowest} on the nights it was fitted to, C. */
    public double error() {
        return error;
    }

    /**
     * A rough first word before dusk: the air is taken to fall as it usually does here until two hours after sunset.
     *
     * @param airC about two hours before sunset
     * @param dewPointC then; NaN when unknown
     */
    public double roughLowest(double airC, double dewPointC) {
        double fall = (USUAL_FALL_C * 2 + fallSum) / (2 + falls);
        return lowest(airC - fall, dewPointC);
    }

    /** Standard error of {@link #lowest} at this site, C: the book's nights are another place's until its own have passed. */
    public double doubt() {
        return Math.hypot(error, SITE_DOUBT_C / Math.sqrt(1 + 2.0 * own.size()));
    }

    /** The same of {@link #roughLowest}. */
    public double roughDoubt() {
        return Math.hypot(doubt(), ROUGH_C);
    }

    /** Standard error of {@link #roughLowest}, C; our choice beside the fit's own. */
    public double roughError() {
        return Math.hypot(error, ROUGH_C);
    }

    /**
     * The air temperature on the way to its lowest, by the book: from two hours after sunset with the square root of time.
     *
     * @param lowestC expected
     * @param airC two hours after sunset
     * @param nightHours from sunset to sunrise, above 2
     * @param hours after sunset, from 2 on
     */
    public static double trend(double lowestC, double airC, double nightHours, double hours) {
        return airC + (lowestC - airC) * Math.sqrt(Math.max(0, hours - 2) / (nightHours - 2));
    }

    /** What a leaf under open sky comes to when the air comes to {@code airC} in a clear, calm night. */
    public static double leaf(double airC) {
        return airC - LEAF_BELOW_AIR_C;
    }

    /**
     * A calm, clear night has passed.
     *
     * @param airC two hours after sunset
     * @param dewPointC then; NaN when unknown: then it is taken as the one that explains nothing
     * @param lowestC lowest of the night
     * @param airBeforeSunsetC two hours before sunset; NaN when unknown
     */
    public void passed(double airC, double dewPointC, double lowestC, double airBeforeSunsetC) {
        own.add(new double[] {airC, dewPointC, lowestC});
        if (own.size() > REMEMBERED) {
            own.remove(0);
        }
        if (!Double.isNaN(airBeforeSunsetC)) {
            fallSum += airBeforeSunsetC - airC;
            falls++;
        }
        fit();
    }

    private void fit() {
        List<double[]> points = new ArrayList<>();
        for (double[] night : BOOK) {
            points.add(new double[] {night[0], night[1], night[2], 1 / (1 + own.size() / 2.0)});
        }
        for (double[] night : own) {
            points.add(new double[] {night[0], night[1], night[2], OWN_WEIGHT});
        }
        byAir = line(points, 0);
        for (double[] point : points) {
            point[2] -= byAir.at(point[0]);
        }
        List<double[]> moist =
                points.stream().filter(point -> !Double.isNaN(point[1])).toList();
        byDew = line(moist, 1);
        double sum = 0;
        double weights = 0;
        for (double[] point : points) {
            double left = Double.isNaN(point[1]) ? point[2] : point[2] - byDew.at(point[1]);
            sum += point[3] * left * left;
            weights += point[3];
        }
        error = Math.sqrt(sum / Math.max(1, weights - 4));
    }

    /** Weighted least squares of the third on one of the first two. */
    private static Line line(List<double[]> points, int on) {
        double weight = 0;
        double x = 0;
        double y = 0;
        for (double[] point : points) {
            weight += point[3];
            x += point[3] * point[on];
            y += point[3] * point[2];
        }
        x /= weight;
        y /= weight;
        double xx = 0;
        double xy = 0;
        for (double[] point : points) {
            xx += point[3] * (point[on] - x) * (point[on] - x);
            xy += point[3] * (point[on] - x) * (point[2] - y);
        }
        double slope = xx > 0 ? xy / xx : 0;
        return new Line(y - slope * x, slope);
    }
}
