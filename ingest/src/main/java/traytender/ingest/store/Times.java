package traytender.ingest.store;

import java.time.Instant;

/** Moments as the numbers the tables keep. */
final class Times {
    private static final long NANOS = 1_000_000_000L;

    private Times() {}

    /**
     * The first whole millisecond not before the time, so that {@code time_ms >= it} means the same as {@code time >= it}; times
     * too far for a long become its ends.
     */
    static long ceilingMs(Instant time) {
        if (time.getEpochSecond() >= Long.MAX_VALUE / 1000) {
            return Long.MAX_VALUE;
        }
        if (time.getEpochSecond() <= Long.MIN_VALUE / 1000) {
            return Long.MIN_VALUE;
        }
        var floor = time.toEpochMilli();
        return Instant.ofEpochMilli(floor).isBefore(time) ? floor + 1 : floor;
    }

    /**
     * Nanoseconds since 1970.
     *
     * @throws IllegalArgumentException outside the years 1678 to 2262, which a long of nanoseconds cannot tell
     */
    static long nanos(Instant time) {
        try {
            return Math.addExact(Math.multiplyExact(time.getEpochSecond(), NANOS), time.getNano());
        } catch (ArithmeticException e) {
            throw new IllegalArgumentException(time + " is outside the years 1678 to 2262", e);
        }
    }

    static Instant ofNanos(long nanos) {
        return Instant.ofEpochSecond(Math.floorDiv(nanos, NANOS), Math.floorMod(nanos, NANOS));
    }
}
