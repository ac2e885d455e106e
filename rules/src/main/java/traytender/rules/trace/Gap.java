package traytender.rules.trace;

import java.time.Duration;
import java.time.Instant;

/** A stretch in which nothing was heard. */
public record Gap(Instant from, Instant to) {
    /** How long. */
    public Duration length() {
        return Duration.between(from, to);
    }
}
