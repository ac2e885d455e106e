package traytender.dashboard.setup;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** The system's clock, which a test can put forward. */
final class MovableClock extends Clock {
    private volatile Duration ahead = Duration.ZERO;

    void forward(Duration by) {
        ahead = ahead.plus(by);
    }

    @Override
    public Instant instant() {
        return Clock.systemUTC().instant().plus(ahead);
    }

    @Override
    public ZoneId getZone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
        return this;
    }
}
