package traytender.dashboard.page;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Makes guessing a password slow: after some failures an asker waits, twice as long each time. <b>Safe from any thread.</b>
 *
 * <p>Figures are our choice: three tries for a wet thumb, then 1 s doubling to a quarter of an hour, which leaves a guesser
 * about 100 tries a day.
 */
final class Throttle {
    private static final int FREE_TRIES = 3;
    private static final Duration LONGEST = Duration.ofMinutes(15);
    private static final int MOST_ASKERS = 1000;

    private record Failures(int count, Instant waitUntil) {}

    private final Clock clock;
    private final Map<String, Failures> byAsker = new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Failures> eldest) {
            return size() > MOST_ASKERS;
        }
    };

    Throttle(Clock clock) {
        this.clock = clock;
    }

    /** How long this asker has still to wait; zero when it may try. */
    synchronized Duration wait(String asker) {
        Failures failures = byAsker.get(asker);
        if (failures == null) {
            return Duration.ZERO;
        }
        Duration left = Duration.between(clock.instant(), failures.waitUntil());
        return left.isNegative() ? Duration.ZERO : left;
    }

    /** This asker's try was wrong. */
    synchronized void failed(String asker) {
        Failures before = byAsker.get(asker);
        int count = before == null ? 1 : before.count() + 1;
        byAsker.put(asker, new Failures(count, clock.instant().plus(pause(count))));
    }

    /** This asker knew the password. */
    synchronized void succeeded(String asker) {
        byAsker.remove(asker);
    }

    private static Duration pause(int count) {
        if (count <= FREE_TRIES) {
            return Duration.ZERO;
        }
        Duration doubled = Duration.ofSeconds(1L << Math.min(count - FREE_TRIES - 1, 20));
        return doubled.compareTo(LONGEST) < 0 ? doubled : LONGEST;
    }
}
