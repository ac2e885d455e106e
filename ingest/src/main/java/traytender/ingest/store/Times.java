package traytender.ingest.store;

import java.time.Instant;

/** Moments as the numbers the readings are kept by. */
public final class Times {
    private Times() {}

    /**
     * The first whole millisecond not before the time, so that {@code time_ms >= it} means the same as {@code time >= it}; times
     * too far for a long become its ends.
     */
    public static long ceilingMs(Instant time) {
        if (time.getEpochSecond() >= Long.MAX_VALUE / 1000) {
            return Long.MAX_VALUE;
        }
        if (time.getEpochSecond() <= Long.MIN_VALUE / 1000) {
            return Long.MIN_VALUE;
        }
        var floor = time.toEpochMilli();
        return Instant.ofEpochMilli(floor).isBefore(time) ? floor + 1 : floor;
    }
}
