package traytender.rules.drying;

/**
 * One watering as one probe saw it. Moisture is a fraction of container capacity.
 *
 * @param startMs event time of the first reading that rose
 * @param settledMs event time from which the level counts as drained; {@link Long#MAX_VALUE} while it still rises or drains
 * @param before moisture before it
 * @param peak highest moisture since
 * @param level moisture once settled, so far the newest while it is not
 * @param riseError standard deviation of the rise, the probe's gain error not included
 */
public record Watering(long startMs, long settledMs, double before, double peak, double level, double riseError) {
    /** Moisture gained: the amount in the cell, as a fraction of what it holds. */
    public double rise() {
        return level - before;
    }

    /** Whether it has drained. */
    public boolean isSettled() {
        return settledMs != Long.MAX_VALUE;
    }
}
