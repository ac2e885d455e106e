package traytender.ingest.decode;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Single values as they stand in messages. */
final class Values {
    private static final Pattern NUMBER = Pattern.compile("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?");
    private static final Pattern NO_NUMBER = Pattern.compile("[+-]?(nan|inf|infinity)", Pattern.CASE_INSENSITIVE);
    /** As seconds this is the year 5138, as milliseconds 1973: no reading of ours lies on the wrong side. */
    private static final double MILLISECONDS_FROM = 1e11;
    /** Beyond it a time has no year of four digits. */
    private static final double LATEST_MS = 253_402_300_799_999.0;

    /** RFC 3339, section 5.6: date and time up to the seconds, seconds, fraction, offset. */
    private static final Pattern RFC_3339 = Pattern.compile(
            "(\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d:)(\\d\\d)((?:\\.\\d{1,9})?)\\d*(Z|[+-]\\d\\d:\\d\\d)",
            Pattern.CASE_INSENSITIVE);

    private static final LocalTime LAST_SECOND = LocalTime.of(23, 59, 59);

    private Values() {}

    /** A number in text, or one of the words. */
    static double number(String text, Map<String, Double> words) throws Refused {
        String trimmed = text.strip();
        Double word = words.get(trimmed);
        if (word != null) {
            return word;
        }
        if (trimmed.isEmpty()) {
            throw new Refused(Cause.EMPTY);
        }
        if (NUMBER.matcher(trimmed).matches()) {
            return finite(Double.parseDouble(trimmed));
        }
        throw new Refused(NO_NUMBER.matcher(trimmed).matches() ? Cause.NOT_FINITE : Cause.NOT_A_NUMBER);
    }

    /** A JSON number, or a JSON text that is one of the words. */
    static double number(JsonNode value, Map<String, Double> words) throws Refused {
        if (value.isNumber()) {
            return finite(value.doubleValue());
        }
        Double word = words.get(value.asText());
        if (word == null) {
            throw new Refused(Cause.NOT_A_NUMBER);
        }
        return word;
    }

    static double finite(double value) throws Refused {
        if (!Double.isFinite(value)) {
            throw new Refused(Cause.NOT_FINITE);
        }
        return value;
    }

    /**
     * RFC 3339 text, or seconds or milliseconds since 1970 as a number; in milliseconds, what is finer cut off. A leap second is
     * folded into the next second, as POSIX does.
     */
    static long timeMs(JsonNode time) throws Refused {
        double ms = time.isNumber() ? epochMs(time.doubleValue()) : writtenMs(time.asText());
        if (!(ms >= 0 && ms <= LATEST_MS)) {
            throw new Refused(Cause.BAD_TIME);
        }
        return (long) ms;
    }

    private static double epochMs(double number) {
        // Rounded, since 0.001 s has no exact double.
        return Math.rint(Math.abs(number) < MILLISECONDS_FROM ? number * 1000 : number);
    }

    private static double writtenMs(String text) throws Refused {
        Matcher parts = RFC_3339.matcher(text);
        if (!parts.matches()) {
            throw new Refused(Cause.BAD_TIME);
        }
        boolean isLeap = parts.group(2).equals("60");
        try {
            OffsetDateTime time = OffsetDateTime.parse(
                    parts.group(1) + (isLeap ? "59" : parts.group(2)) + parts.group(3) + parts.group(4));
            if (isLeap
                    && !time.withOffsetSameInstant(ZoneOffset.UTC)
                            .toLocalTime()
                            .truncatedTo(ChronoUnit.SECONDS)
                            .equals(LAST_SECOND)) {
                throw new Refused(Cause.BAD_TIME);
            }
            return time.toInstant().toEpochMilli() + (isLeap ? 1000 : 0);
        } catch (DateTimeException e) {
            throw new Refused(Cause.BAD_TIME);
        }
    }
}
