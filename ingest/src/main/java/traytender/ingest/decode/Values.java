package traytender.ingest.decode;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.util.Map;
import java.util.regex.Pattern;

/** Single values as they stand in messages. */
final class Values {
    private static final Pattern NUMBER = Pattern.compile("[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?");
    private static final Pattern NO_NUMBER = Pattern.compile("[+-]?(nan|inf|infinity)", Pattern.CASE_INSENSITIVE);
    /** As seconds this is the year 5138, as milliseconds 1973: no reading of ours lies on the wrong side. */
    private static final double MILLISECONDS_FROM = 1e11;
    /** Beyond it a time has no year of four digits. */
    private static final double LATEST_MS = 253_402_300_799_999.0;

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

    /** RFC 3339 text, or seconds or milliseconds since 1970 as a number; in milliseconds. */
    static long timeMs(JsonNode time) throws Refused {
        if (time.isNumber()) {
            double number = time.doubleValue();
            double ms = Math.abs(number) < MILLISECONDS_FROM ? number * 1000 : number;
            if (!(Math.abs(ms) <= LATEST_MS)) {
                throw new Refused(Cause.BAD_TIME);
            }
            return Math.round(ms);
        }
        try {
            return OffsetDateTime.parse(time.asText()).toInstant().toEpochMilli();
        } catch (DateTimeException | ArithmeticException e) {
            throw new Refused(Cause.BAD_TIME);
        }
    }
}
