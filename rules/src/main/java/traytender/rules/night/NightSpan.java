package traytender.rules.night;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;
import org.shredzone.commons.suncalc.SunTimes;
import traytender.config.site.Location;
import traytender.config.site.Site;

/**
 * The night that begins on a date, from sunset to sunrise, and the day before it. Sun times by commons-suncalc; where there is
 * no location, or the sun does not set or rise that day, the night is counted from 20:00 to 06:00 of the site's own time
 * (our choice) and {@code bySun} says so. Nights over the change of summer time are as long as they really are.
 *
 * @param sunriseBefore start of the day that ends with {@code sunset}
 * @param bySun false when counted by the clock
 */
public record NightSpan(LocalDate date, Instant sunriseBefore, Instant sunset, Instant sunrise, boolean bySun) {
    private static final LocalTime EVENING = LocalTime.of(20, 0);
    private static final LocalTime MORNING = LocalTime.of(6, 0);

    /** The night of a site that begins on a date. */
    public static NightSpan of(Site site, LocalDate date) {
        return of(site.location(), site.timezone(), date);
    }

    /** The night at a place that begins on a date of its own time zone. */
    public static NightSpan of(@Nullable Location location, ZoneId timezone, LocalDate date) {
        if (location != null) {
            Instant noon = date.atTime(12, 0).atZone(timezone).toInstant();
            Instant set = event(location, timezone, noon, false);
            Instant before = event(location, timezone, noon.minus(Duration.ofHours(18)), true);
            Instant rise = set == null ? null : event(location, timezone, set.plusSeconds(60), true);
            if (set != null && rise != null && before != null && before.isBefore(set)) {
                return new NightSpan(date, before, set, rise, true);
            }
        }
        return new NightSpan(
                date,
                date.atTime(MORNING).atZone(timezone).toInstant(),
                date.atTime(EVENING).atZone(timezone).toInstant(),
                date.plusDays(1).atTime(MORNING).atZone(timezone).toInstant(),
                false);
    }

    /** The next event within a day; null when the sun stays up or down. */
    private static @Nullable Instant event(Location location, ZoneId timezone, Instant from, boolean rise) {
        var times = SunTimes.compute()
                // Timezone first: set after the time, it would take the time's clock for local time.
                .timezone(timezone)
                .on(from)
                .at(location.latitude(), location.longitude())
                .oneDay()
                .execute();
        var found = rise ? times.getRise() : times.getSet();
        // The library itself is good to about a minute, and to whole minutes it gives one answer wherever the search
        // began.
        return found == null
                ? null
                : found.plusSeconds(30).truncatedTo(ChronoUnit.MINUTES).toInstant();
    }

    /** How long the night lasts. */
    public Duration length() {
        return Duration.between(sunset, sunrise);
    }
}
