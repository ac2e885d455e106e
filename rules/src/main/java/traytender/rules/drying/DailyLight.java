package traytender.rules.drying;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import org.jspecify.annotations.Nullable;
import traytender.config.site.LampHours;
import traytender.config.site.Location;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;

/**
 * Light between the same two times of day in the site's own time, right over the change to and from summer time.
 *
 * <p>A room with lamps has their hours. Without, {@link #USUAL}, whatever the room: in the months seedlings are raised the sun
 * in temperate latitudes stands for about those hours, and indoor lamps are mostly set so. Our choice, no source.
 */
public final class DailyLight implements LightPlan {
    /** From six to twenty; our choice. */
    public static final LampHours USUAL = new LampHours(LocalTime.of(6, 0), LocalTime.of(20, 0));

    private static final long HOUR_MS = 3_600_000;

    private final LampHours hours;
    private final ZoneId timezone;
    private final SunShape sun;
    /** By the hour asked about: a forecast asks two days ahead, every minute anew. Immutable values, so that threads may share them. */
    private final @Nullable Day[] remembered = new Day[64];

    /** A stretch of constant light. */
    private record Day(long fromMs, long toMs, boolean lit) {}

    /** Light in these hours and no sun. */
    public DailyLight(LampHours hours, ZoneId timezone) {
        this(hours, timezone, null);
    }

    /** Light in these hours, and the sun of a place; null for no sun. */
    public DailyLight(LampHours hours, ZoneId timezone, @Nullable Location location) {
        this.hours = hours;
        this.timezone = timezone;
        this.sun = new SunShape(location);
    }

    /**
     * The plan of a room. Sun comes into every room but one indoors that has lamps.
     *
     * @param location of the site; null when unknown
     */
    public static LightPlan of(Room room, ZoneId timezone, @Nullable Location location) {
        LampHours lamps = room.light();
        boolean lampsOnly = lamps != null && room.kind() == RoomKind.INDOORS;
        return new DailyLight(lamps == null ? USUAL : lamps, timezone, lampsOnly ? null : location);
    }

    @Override
    public boolean isLit(long timeMs) {
        return stretch(timeMs).lit;
    }

    @Override
    public long nextChangeMs(long timeMs) {
        return hours.on().equals(hours.off()) ? Long.MAX_VALUE : stretch(timeMs).toMs;
    }

    @Override
    public double sun(long timeMs) {
        return sun.at(timeMs);
    }

    private Day stretch(long timeMs) {
        int slot = (int) Math.floorDiv(timeMs, HOUR_MS) & (remembered.length - 1);
        Day day = remembered[slot];
        if (day == null || timeMs < day.fromMs || timeMs >= day.toMs) {
            day = find(timeMs);
            remembered[slot] = day;
        }
        return day;
    }

    private Day find(long timeMs) {
        var local = Instant.ofEpochMilli(timeMs).atZone(timezone);
        long from = Long.MIN_VALUE;
        long to = Long.MAX_VALUE;
        boolean lit = hours.contains(local.toLocalTime());
        for (int day = -1; day <= 1; day++) {
            LocalDate date = local.toLocalDate().plusDays(day);
            for (LocalTime change : new LocalTime[] {hours.on(), hours.off()}) {
                long at = date.atTime(change).atZone(timezone).toInstant().toEpochMilli();
                if (at <= timeMs && at >= from) {
                    from = at;
                    lit = change.equals(hours.on());
                } else if (at > timeMs) {
                    to = Math.min(to, at);
                }
            }
        }
        return new Day(from, to, lit);
    }
}
