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

    private static final double WANDERED = 0.08;
    /** No drained medium holds so much. */
    private static final double OVERFULL = 1.1;
    /** Other probes of the tray that moved alike speak for the watering, not against the probe. */
    private static final double OTHERS_MOVED = 0.05;

    private static final int FIRST = 2;

    private @Nullable Calibration calibration;
    private double first = Double.NaN;
    private double last = Double.NaN;
    private double beforeLast = Double.NaN;
    private double thirdLast = Double.NaN;
    private int count;
    private double othersMoved;

    Soaks copy() {
        var copy = new Soaks();
        copy.calibration = calibration;
        copy.first = first;
        copy.last = last;
        copy.beforeLast = beforeLast;
        copy.thirdLast = thirdLast;
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
        thirdLast = beforeLast;
        beforeLast = last;
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
     * Whether two soaks in a row read far more than full medium can hold and than the first ones did, or far less than the first ones and less each
     * time, while other probes of the tray read as ever.
     */
    boolean isWandering() {
        if (count <= FIRST + 1) {
            return false;
        }
        double least = Math.min(last, beforeLast);
        boolean up = least > OVERFULL && least - first > WANDERED && othersMoved < OTHERS_MOVED;
        boolean falls = last < beforeLast && beforeLast < thirdLast;
        return up || (falls && first - beforeLast > WANDERED && othersMoved > -OTHERS_MOVED);
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
