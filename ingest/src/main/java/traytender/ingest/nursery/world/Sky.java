package traytender.ingest.nursery.world;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZonedDateTime;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import org.shredzone.commons.suncalc.SunPosition;
import org.shredzone.commons.suncalc.SunTimes;

/**
 * The weather outside, a function of time alone.
 *
 * <p>Air: a daily cosine, coldest at 05:00 and warmest at 15:00 local (bent so), plus a smooth wander over days. In a clear night the fall
 * goes with the square root of the time since sunset, the shape of Allen (1957) as used in FAO's frost manual (Snyder and
 * de Melo-Abreu 2005, chapter 5); it is gone three hours after sunrise. Vapour pressure: constant over the day but for saturation, our choice.
 * Sun: the sine of the sun's height times a passing cloud of 0.4 to 1.
 *
 * <p><b>Used by one thread</b>: it remembers the sun times of the days it was asked about.
 */
public final class Sky {
    private static final double CLEARING_HOURS = 3;

    private final SkyTraits traits;
    private final Noise wander;
    private final Noise cloud;
    private final Map<LocalDate, Instant> sunsets = new HashMap<>();
    private final Map<LocalDate, Instant> sunrises = new HashMap<>();
    private Instant sunAt = Instant.MIN;
    private double sun;

    public Sky(SkyTraits traits, Noise noise) {
        this.traits = traits;
        this.wander = noise.of("wander");
        this.cloud = noise.of("cloud");
    }

    public SkyTraits traits() {
        return traits;
    }

    /** The local date and time. */
    public ZonedDateTime local(Instant time) {
        return time.atZone(traits.zone());
    }

    /** Outside air in C. */
    public double air(Instant time) {
        double hour = hourOfDay(time);
        double days = time.getEpochSecond() / 86_400.0;
        double drift = traits.wanderK() * wander.smooth(days / 1.5);
        return traits.meanC() + drift - traits.swingK() * daily(hour) - clearing(time);
    }

    /** Outside vapour pressure in kPa. */
    public double vapour(Instant time) {
        double held = traits.dampness() * Vapour.saturated(traits.meanC());
        return Math.min(held, 0.96 * Vapour.saturated(air(time)));
    }

    /** Sunshine, 0 in the dark to 1 with the sun overhead and no cloud. */
    public double sun(Instant time) {
        if (!time.equals(sunAt)) {
            sunAt = time;
            sun = shine(time);
        }
        return sun;
    }

    private double shine(Instant time) {
        double height = SunPosition.compute()
                .at(traits.location().latitude(), traits.location().longitude())
                .on(time)
                .execute()
                .getTrueAltitude();
        double passing = 0.7 + 0.3 * cloud.smooth(time.getEpochSecond() / 4000.0);
        return Math.max(0, Math.sin(Math.toRadians(height))) * passing;
    }

    /** Hours since local midnight, 0 to 24. */
    public double hourOfDay(Instant time) {
        return local(time).toLocalTime().toSecondOfDay() / 3600.0;
    }

    /** The sunset that begins the night of a date. */
    public Instant sunset(LocalDate evening) {
        return sunsets.computeIfAbsent(evening, day -> sunTimes(day, true));
    }

    /** The sunrise of a date. */
    public Instant sunrise(LocalDate morning) {
        return sunrises.computeIfAbsent(morning, day -> sunTimes(day, false));
    }

    /** 1 at its coldest (05:00), -1 at its warmest (15:00), 10 hours up and 14 down. */
    static double daily(double hour) {
        double since = (hour - 5 + 24) % 24;
        return since < 10 ? Math.cos(Math.PI * since / 10) : -Math.cos(Math.PI * (since - 10) / 14);
    }

    private double clearing(Instant time) {
        if (traits.clearNights().isEmpty()) {
            return 0;
        }
        LocalDate today = local(time).toLocalDate();
        return Math.max(fall(time, today), fall(time, today.minusDays(1)));
    }

    private double fall(Instant time, LocalDate evening) {
        double depth = traits.clearNights().getOrDefault(evening, 0.0);
        Instant down = sunset(evening);
        if (depth == 0 || time.isBefore(down)) {
            return 0;
        }
        Instant up = sunrise(evening.plusDays(1));
        if (time.isBefore(up)) {
            return depth * Math.sqrt(hours(down, time) / hours(down, up));
        }
        return depth * Math.max(0, 1 - hours(up, time) / CLEARING_HOURS);
    }

    private static double hours(Instant from, Instant to) {
        return Duration.between(from, to).toSeconds() / 3600.0;
    }

    private Instant sunTimes(LocalDate day, boolean set) {
        ZonedDateTime midnight = day.atStartOfDay(traits.zone());
        SunTimes times = SunTimes.compute()
                .at(traits.location().latitude(), traits.location().longitude())
                .on(midnight)
                .execute();
        ZonedDateTime found = set ? times.getSet() : times.getRise();
        return Objects.requireNonNullElse(found, midnight.plusHours(set ? 18 : 6))
                .toInstant();
    }
}
