package traytender.config.site;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.TemporalAccessor;
import java.util.Locale;

/**
 * How people are shown numbers; files and messages always carry C and UTC.
 *
 * @param fahrenheit F instead of C
 * @param twelveHours 2:30 pm instead of 14:30
 */
public record Show(boolean fahrenheit, boolean twelveHours) {
    /** As shown when the site file says nothing: C, and the clock from 0 to 24. */
    public static final Show USUAL = new Show(false, false);

    private static final DateTimeFormatter OF_24 = DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);
    private static final DateTimeFormatter OF_12 = DateTimeFormatter.ofPattern("h:mm a", Locale.ENGLISH);

    /** A time of day in words: 14:30 or 2:30 pm. */
    public String clock(LocalTime time) {
        return of(time);
    }

    /** The time of day of a moment in a time zone, in words: 14:30 or 2:30 pm. */
    public String clock(Instant time, ZoneId zone) {
        return of(time.atZone(zone));
    }

    /** Midday is 12:00 pm and midnight 12:00 am, as a digital clock has it. */
    private String of(TemporalAccessor time) {
        return twelveHours ? OF_12.format(time).toLowerCase(Locale.ENGLISH) : OF_24.format(time);
    }
}
