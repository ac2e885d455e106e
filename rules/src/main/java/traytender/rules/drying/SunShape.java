package traytender.rules.drying;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.shredzone.commons.suncalc.SunPosition;
import traytender.config.site.Location;

/**
 * How leaves use the sun over a clear day: nothing below the horizon, rising with the sine of its height, as the radiation
 * on the bench does and with it what leaves give off (FAO-56 chapter 3), and levelling off a little (a rectangular hyperbola). Where
 * leaves level off sooner, the even light of {@link LightPlan} takes that part. Where it bends is our choice.
 *
 * <p>Heights by commons-suncalc. Looked up by the half hour and remembered for a few days; the same whoever asks.
 */
final class SunShape {
    private static final long HALF_HOUR_MS = 1_800_000;
    private static final int HALF_HOURS = 48;
    /** Sine of the height at which leaves use half of what they would of an endless sun; our choice. */
    private static final double BEND = 1.5;

    private final @Nullable Location location;
    private final @Nullable Day[] days = new Day[4];

    /** One day's values; immutable, so that two threads may share it. */
    private static final class Day {
        private final long number;
        private final double[] values;

        Day(long number, double[] values) {
            this.number = number;
            this.values = values;
        }
    }

    SunShape(@Nullable Location location) {
        this.location = location;
    }

    /** The share of a high sun's use, 0 to 1. */
    double at(long timeMs) {
        if (location == null) {
            return 0;
        }
        long half = Math.floorDiv(timeMs, HALF_HOUR_MS);
        double part = (timeMs - half * HALF_HOUR_MS) / (double) HALF_HOUR_MS;
        return (1 - part) * of(half, location) + part * of(half + 1, location);
    }

    private double of(long half, Location place) {
        long number = Math.floorDiv(half, (long) HALF_HOURS);
        int slot = (int) Math.floorMod(number, (long) days.length);
        Day day = days[slot];
        if (day == null || day.number != number) {
            day = new Day(number, values(number, place));
            days[slot] = day;
        }
        return day.values[(int) Math.floorMod(half, (long) HALF_HOURS)];
    }

    private static double[] values(long number, Location place) {
        double[] values = new double[HALF_HOURS];
        for (int i = 0; i < HALF_HOURS; i++) {
            Instant time = Instant.ofEpochMilli((number * HALF_HOURS + i) * HALF_HOUR_MS);
            double height = SunPosition.compute()
                    .on(time)
                    .at(place.latitude(), place.longitude())
                    .execute()
                    .getAltitude();
            double sine = Math.max(0, Math.sin(Math.toRadians(height)));
            values[i] = sine / (sine + BEND) * (1 + BEND);
        }
        return values;
    }
}
