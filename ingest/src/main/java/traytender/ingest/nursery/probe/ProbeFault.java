package traytender.ingest.nursery.probe;

import java.time.Instant;

/**
 * Something wrong with a probe for a while.
 *
 * @param from inclusive
 * @param to exclusive
 * @param size how bad, by kind
 */
public record ProbeFault(Kind kind, Instant from, Instant to, double size) {
    /** What can be wrong. */
    public enum Kind {
        /** Reports nothing. */
        SILENT,
        /** Reports what it reported first, over and over. */
        STUCK,
        /** Lies in air: moisture reads dry, temperature the air's. */
        LIFTED,
        /** A share of readings ({@code size}, 0 to 1) leaps far away. */
        JUMPING,
        /** Reads {@code size}, far out of range, in the raw value's unit. */
        RANGE,
        /** Its clock is {@code size} seconds ahead. */
        CLOCK,
        /** Keeps readings for {@code size} hours and delivers them together, shuffled. */
        LATE,
        /** A share of readings ({@code size}, 0 to 1) is a lone spike. */
        SPIKES,
        /** Reads {@code size} too high. */
        SHIFTED
    }

    /** Whether it holds at a time. */
    public boolean holds(Instant time) {
        return !time.isBefore(from) && time.isBefore(to);
    }
}
