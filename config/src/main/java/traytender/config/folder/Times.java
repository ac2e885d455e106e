package traytender.config.folder;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.MonthDay;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import traytender.config.site.LampHours;

/** Times, days and lengths of time in a site file. */
final class Times {
    private static final Pattern TIME_OF_DAY = Pattern.compile("([01]\\d|2[0-3]):[0-5]\\d");
    private static final Pattern HOURS = Pattern.compile("(\\d\\d:\\d\\d)\\s*-\\s*(\\d\\d:\\d\\d)");

    private Times() {}

    private static <T> @Nullable T parse(Field field, Function<String, T> parser, String right) {
        String text = field.written();
        try {
            if (text != null) {
                return parser.apply(text);
            }
        } catch (DateTimeException | ArithmeticException wrong) {
            // Falls through to the one way of saying it.
        }
        return field.refuse(field.what() + " is " + field.shown(), right + " is right");
    }

    /** An ISO 8601 duration within bounds, both inclusive. */
    static @Nullable Duration duration(Field field, Duration shortest, Duration longest, String example) {
        Duration duration =
                parse(field, Duration::parse, "an ISO 8601 duration in days or less, such as " + example + ",");
        if (duration != null && (duration.compareTo(shortest) < 0 || duration.compareTo(longest) > 0)) {
            return field.refuse(
                    field.what() + " is " + field.shown(), "from " + shortest + " to " + longest + " is right");
        }
        return duration;
    }

    /** An RFC 3339 time, or a day, which begins at midnight of the site. */
    static @Nullable Instant instant(Field field, ZoneId zone) {
        return parse(
                field,
                text -> text.length() == 10
                        ? LocalDate.parse(text).atStartOfDay(zone).toInstant()
                        : OffsetDateTime.parse(text.replace(' ', 'T')).toInstant(),
                "an RFC 3339 time such as 2026-03-14T05:41:00Z, or a day such as 2026-03-14,");
    }

    static @Nullable LocalDate date(Field field) {
        return parse(field, LocalDate::parse, "a day such as 2026-03-02");
    }

    /** Hours and minutes; a number of minutes, which is what other YAML versions make of 07:00, is not guessed at. */
    static @Nullable LocalTime timeOfDay(Field field) {
        return parse(field, Times::timeOfDay, "hours and minutes such as \"07:00\"");
    }

    private static LocalTime timeOfDay(String text) {
        if (!TIME_OF_DAY.matcher(text).matches()) {
            throw new DateTimeException(text);
        }
        return LocalTime.parse(text);
    }

    /** Month and day. */
    static @Nullable MonthDay monthDay(Field field) {
        return parse(field, text -> MonthDay.parse("--" + text), "month and day such as 04-20");
    }

    static @Nullable LampHours lampHours(Field field) {
        LampHours hours = parse(field, Times::lampHours, "the lamps' hours such as \"06:00-22:00\"");
        return hours != null && hours.on().equals(hours.off())
                ? field.refuse(field.what() + " begins and ends at " + hours.on(), "two different times are right")
                : hours;
    }

    private static LampHours lampHours(String text) {
        var matcher = HOURS.matcher(text.strip());
        if (!matcher.matches()) {
            throw new DateTimeException(text);
        }
        return new LampHours(timeOfDay(matcher.group(1)), timeOfDay(matcher.group(2)));
    }

    /** An IANA time zone. */
    static @Nullable ZoneId zone(Field field) {
        String text = field.written();
        if (text != null && ZoneId.getAvailableZoneIds().contains(text)) {
            return ZoneId.of(text);
        }
        Optional<String> near = text == null ? Optional.empty() : Nearest.to(text, ZoneId.getAvailableZoneIds());
        return field.refuse(
                field.what() + " is " + field.shown(),
                near.map(zone -> "did you mean \"" + zone + "\"? ").orElse("")
                        + "an IANA time zone such as Europe/Dublin is right");
    }
}
