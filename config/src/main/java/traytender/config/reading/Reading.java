package traytender.config.reading;

import java.time.Instant;

/**
 * One value of one probe at one time; its identity is probe and time.
 *
 * @param probe the probe's id
 * @param timeMs milliseconds since 1970-01-01T00:00Z at which it was measured
 * @param value calibrated, in the unit of the probe's quantity; moisture as a fraction; always finite
 * @param raw as the probe sent it
 * @param marks bits of {@link Marks}
 */
public record Reading(String probe, long timeMs, double value, double raw, int marks) {
    public Reading {
        if (!Double.isFinite(value) || !Double.isFinite(raw)) {
            throw new IllegalArgumentException(probe + " at " + timeMs + ": value " + value + ", raw " + raw);
        }
    }

    /** When it was measured. */
    public Instant time() {
        return Instant.ofEpochMilli(timeMs);
    }

    /** Whether a mark is set. */
    public boolean has(int mark) {
        return (marks & mark) != 0;
    }
}
