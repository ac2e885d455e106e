package traytender.rules.bench;

import org.jspecify.annotations.Nullable;
import traytender.config.site.Calibration;

/**
 * What one moisture probe reads in soaked and drained medium, watering after watering. There the truth is 1, so that a reading which wanders tells
 * of the probe. Never used to change a calibration: a new one is only offered. Thresholds are our choice, wide of what a good watering leaves.
 *
 * <p><b>Not thread-safe.</b>
 */
final class Soaks {
    /** A watering that brought less did not soak the place. */
    private static final double SOAKS = 0.1;

    private static final double WANDERED_UP = 0.08;
    private static final double WANDERED_DOWN = 0.1;
    /** No drained medium holds so much. */
    private static final double OVERFULL = 1.1;
    /** Other probes of the tray that moved alike speak for the watering, not against the probe. */
    private static final double OTHERS_MOVED = 0.05;

    private static final int FIRST = 2;

    private @Nullable Calibration calibration;
    private double first = Double.NaN;
    private double highestOfTwo = Double.NaN;
    private double lowestOfTwo = Double.NaN;
    private double highestOfThree = Double.NaN;
    private double last = Double.NaN;
    private int count;
    private double othersMoved;

    Soaks copy() {
        var copy = new Soaks();
        copy.calibration = calibration;
        copy.first = first;
        copy.highestOfTwo = highestOfTwo;
        copy.lowestOfTwo = lowestOfTwo;
        copy.highestOfThree = highestOfThree;
        copy.last = last;
        copy.count = count;
        copy.othersMoved = othersMoved;
        return copy;
    }

    /** A watering has drained: the level it left, what it brought, and by what calibration that was read. */
    void drained(double level, double gained, Calibration by) {
        if (gained < SOAKS || Double.isNaN(level)) {
            return;
        }
        if (!by.equals(calibration)) {
            calibration = by;
            count = 0;
        }
        count++;
        if (count <= FIRST) {
            first = count == 1 ? level : (first + level) / 2;
        }
        highestOfThree = count == 1 ? level : Math.max(highestOfTwo, level);
        highestOfTwo = count == 1 ? level : Math.max(last, level);
        lowestOfTwo = count == 1 ? level : Math.min(last, level);
        last = level;
    }

    /** By how much the last soak reads other than the first ones; NaN before there are some to compare. */
    double moved() {
        return count > FIRST ? last - first : Double.NaN;
    }

    /** Says by how much the tray's other probes moved meanwhile; 0 without others. */
    void othersMoved(double moved) {
        othersMoved = moved;
    }

    /**
     * Whether two soaks in a row read far more than full medium can hold and than the first ones did, or three in a row far less than the first ones,
     * while other probes of the tray read as ever.
     */
    boolean isWandering() {
        if (count <= FIRST + 1) {
            return false;
        }
        boolean up = lowestOfTwo > OVERFULL && lowestOfTwo - first > WANDERED_UP && othersMoved < OTHERS_MOVED;
        boolean down = count > FIRST + 2 && first - highestOfThree > WANDERED_DOWN && othersMoved > -OTHERS_MOVED;
        return up || down;
    }

    double first() {
        return first;
    }

    double last() {
        return last;
    }

    /** The count that would be read as full if the last soak is believed; NaN for a calibration that has none. */
    double offeredWet() {
        return calibration instanceof Calibration.DryWet ends
                ? Math.rint(ends.dry() + last * (ends.wet() - ends.dry()))
                : Double.NaN;
    }
}
