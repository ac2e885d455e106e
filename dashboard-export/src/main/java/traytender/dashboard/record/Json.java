package traytender.dashboard.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import org.jspecify.annotations.Nullable;

/** How numbers, times and words are written as JSON. A number or time that is not known is null, never NaN. */
public final class Json {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

    private Json() {}

    /** An empty object; its fields keep the order in which they are set. */
    public static ObjectNode object() {
        return NODES.objectNode();
    }

    /** An empty array. */
    public static ArrayNode array() {
        return NODES.arrayNode();
    }

    /** An array of words. */
    public static ArrayNode words(Collection<String> words) {
        ArrayNode array = array();
        words.forEach(array::add);
        return array;
    }

    /** The number rounded half up to so many decimals, without trailing zeros; null when it is not finite. */
    public static JsonNode number(double value, int decimals) {
        if (!Double.isFinite(value)) {
            return NODES.nullNode();
        }
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
        BigDecimal plain = rounded.stripTrailingZeros();
        // Whole numbers as such, or a hundred would be written 1E+2.
        return plain.scale() <= 0 ? NODES.numberNode(plain.toBigIntegerExact()) : NODES.numberNode(plain);
    }

    /** The time in UTC, with milliseconds where they are not zero; null for null and for a time without beginning. */
    public static JsonNode time(@Nullable Instant time) {
        return time == null || time.equals(Instant.MIN) ? NODES.nullNode() : NODES.textNode(text(time));
    }

    /** The time in UTC as text, with milliseconds where they are not zero. */
    public static String text(Instant time) {
        return time.truncatedTo(ChronoUnit.MILLIS).toString();
    }

    /** The node as text on one line. */
    public static String write(JsonNode node) {
        try {
            return MAPPER.writeValueAsString(node);
        } catch (JsonProcessingException e) {
            throw new UncheckedIOException(e);
        }
    }
}
