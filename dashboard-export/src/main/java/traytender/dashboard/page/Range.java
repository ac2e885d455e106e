package traytender.dashboard.page;

import java.time.Duration;
import java.time.Instant;

/**
 * A range of time asked for.
 *
 * @param from inclusive
 * @param to exclusive
 */
record Range(Instant from, Instant to) {
    private static final Duration DAY = Duration.ofDays(1);

    /** What {@code from} and {@code to} say; without them the day that ends now, or begins or ends at the other one. */
    static Range of(Query query, Instant now) {
        Instant givenFrom = query.time("from").orElse(null);
        Instant givenTo = query.time("to").orElse(null);
        // A reading of this very moment belongs to the day that ends now.
        Instant to =
                givenTo != null ? givenTo : givenFrom == null ? now.plusSeconds(1) : latest(givenFrom.plus(DAY), now);
        Instant from = givenFrom != null ? givenFrom : to.minus(DAY);
        if (!from.isBefore(to)) {
            throw Answer.wrong("from=" + from + " is not before to=" + to);
        }
        return new Range(from, to);
    }

    private static Instant latest(Instant one, Instant other) {
        return one.isAfter(other) ? one : other.plusSeconds(1);
    }
}
