package traytender.dashboard.program;

import java.time.Duration;
import java.util.function.LongSupplier;

/**
 * How soon the program may be started anew: at once after a calm time, then after pauses that double, so that a fault that a new start
 * does not cure is no endless loop of starts. <b>Not safe for several threads.</b>
 */
final class StartPace {
    /** After so long without a new start the next one is the first again; our choice. */
    static final Duration CALM = Duration.ofMinutes(15);

    private static final Duration FIRST_PAUSE = Duration.ofSeconds(4);
    private static final Duration LONGEST_PAUSE = Duration.ofMinutes(5);

    private final LongSupplier nanoTime;
    private Duration pause = Duration.ZERO;
    private long lastStart;

    /** @param nanoTime a clock in nanoseconds that never goes back, such as {@link System#nanoTime} */
    StartPace(LongSupplier nanoTime) {
        this.nanoTime = nanoTime;
        this.lastStart = nanoTime.getAsLong();
    }

    /** Whether the pause since the last new start is over. */
    boolean isOver() {
        return sinceStart().compareTo(pause) >= 0;
    }

    /** A new start is being made. */
    void started() {
        boolean isCalm = sinceStart().compareTo(CALM) >= 0;
        Duration doubled = pause.multipliedBy(2);
        if (isCalm || pause.isZero()) {
            pause = FIRST_PAUSE;
        } else {
            pause = doubled.compareTo(LONGEST_PAUSE) < 0 ? doubled : LONGEST_PAUSE;
        }
        lastStart = nanoTime.getAsLong();
    }

    private Duration sinceStart() {
        return Duration.ofNanos(nanoTime.getAsLong() - lastStart);
    }
}
