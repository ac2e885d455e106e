package traytender.ingest.decode;

/**
 * When a message came.
 *
 * @param timeMs by the program's clock, in ms since 1970
 * @param latestMs a reading's time after this one is refused; {@link Long#MAX_VALUE} while the program's own clock is known to be wrong
 * @param isKept whether the broker kept it from before, so that the time of arrival says nothing
 * @param marks marks of every reading of the message, such as that of a wrong clock
 */
public record Arrival(long timeMs, long latestMs, boolean isKept, int marks) {
    /** A reading's own time, unless it lies in the future. */
    long checked(long readingMs) throws Refused {
        if (readingMs > latestMs) {
            throw new Refused(Cause.FUTURE);
        }
        return readingMs;
    }

    /**
     * The time of something measured that long after the message came.
     *
     * @param afterMs 0 for what has no time of its own; negative for earlier
     */
    long relative(long afterMs) throws Refused {
        if (isKept) {
            throw new Refused(Cause.STALE);
        }
        return checked(timeMs + afterMs);
    }
}
