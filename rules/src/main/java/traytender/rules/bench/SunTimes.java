package traytender.rules.bench;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Location;

/**
 * Sunset and sunrise at the site, by commons-suncalc; without a location from {@value #EVENING} to {@value #MORNING} o'clock,
 * our choice. Remembers the last answer. <b>Not thread-safe.</b>
 */
public final class SunTimes {
    static final int EVENING = 20;
    static final int MORNING = 6;
    private static final long DAY_MS = 86_400_000L;

    private final @Nullable Location location;
    private final ZoneId timezone;
    private long fromMs = Long.MIN_VALUE;
    private long toMs = Long.MIN_VALUE;
    private boolean night;
    private long setMs;
    private long riseMs;

    /** The sun of a site. */
    public SunTimes(@Nullable Location location, ZoneId timezone) {
        this.location = location;
        this.timezone = timezone;
    }

    /** Whether it is between sunset and sunrise. */
    public boolean isNight(long timeMs) {
        find(timeMs);
        return night;
    }

    /** The sunset of the night it is, or of the coming night. */
    public long sunsetMs(long timeMs) {
        find(timeMs);
        return setMs;
    }

    /** The sunrise after that sunset. */
    public long sunriseMs(long timeMs) {
        find(timeMs);
        return riseMs;
    }

    private void find(long timeMs) {
        if (timeMs >= fromMs && timeMs < toMs) {
            return;
        }
        long nextSet = next(timeMs, false);
        long nextRise = next(timeMs, true);
        night = nextRise < nextSet;
        fromMs = timeMs;
        toMs = Math.min(nextSet, nextRise);
        if (night) {
            // The sunset before: looked for from a day before the next one, which is later or earlier by minutes only.
            setMs = next(nextSet - DAY_MS - DAY_MS / 8, false);
            riseMs = nextRise;
        } else {
            setMs = nextSet;
            riseMs = next(nextSet, true);
        }
    }

    private long next(long timeMs, boolean rise) {
        if (location == null) {
            return nextClock(timeMs, LocalTime.of(rise ? MORNING : EVENING, 0));
        }
        var times = org.shredzone.commons.suncalc.SunTimes.compute()
                // Timezone first: set after the time, it would take the time's clock for local time.
                .timezone(timezone)
                .on(Instant.ofEpochMilli(timeMs))
                .at(location.latitude(), location.longitude())
                .execute();
        ZonedDateTime found = rise ? times.getRise() : times.getSet();
        return found == null
                ? nextClock(timeMs, LocalTime.of(rise ? MORNING : EVENING, 0))
                : found.toInstant().toEpochMilli() + 1;
    }

    private long nextClock(long timeMs, LocalTime time) {
        ZonedDateTime now = Instant.ofEpochMilli(timeMs).atZone(timezone);
        long today = now.toLocalDate().atTime(time).atZone(timezone).toInstant().toEpochMilli();
        return today > timeMs
                ? today
                : now.toLocalDate()
                        .plusDays(1)
                        .atTime(time)
                        .atZone(timezone)
                        .toInstant()
                        .toEpochMilli();
    }
}
