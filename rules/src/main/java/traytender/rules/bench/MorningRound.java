package traytender.rules.bench;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;

/** When the grower goes round in the morning, by the site's own clock. Remembers the last answer. <b>Not thread-safe.</b> */
final class MorningRound {
    private final LocalTime time;
    private final ZoneId timezone;
    private long askedMs = Long.MAX_VALUE;
    private long nextMs = Long.MIN_VALUE;

    MorningRound(LocalTime time, ZoneId timezone) {
        this.time = time;
        this.timezone = timezone;
    }

    /** The next round at or after a time. */
    long nextMs(long timeMs) {
        if (timeMs < askedMs || timeMs > nextMs) {
            nextMs = find(timeMs);
            askedMs = timeMs;
        }
        return nextMs;
    }

    private long find(long timeMs) {
        ZonedDateTime local = Instant.ofEpochMilli(timeMs).atZone(timezone);
        ZonedDateTime round = local.toLocalDate().atTime(time).atZone(timezone);
        if (round.isBefore(local)) {
            round = local.toLocalDate().plusDays(1).atTime(time).atZone(timezone);
        }
        return round.toInstant().toEpochMilli();
    }
}
