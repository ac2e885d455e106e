package traytender.ingest.decode;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The numbers that stand in a message nobody has described yet, each with the way to it that a site file would name. */
public final class Fields {
    /** More than a sensor sends; our choice. */
    private static final int MOST = 40;

    private static final Set<String> TIMES = Set.of("time", "at", "ts", "timestamp", "datetime");

    /**
     * One number of a message.
     *
     * @param format {@code text}, {@code json} or {@code senml}
     * @param where JSON pointer or resolved SenML name; empty for text
     * @param unit as a SenML record says; null elsewhere
     */
    public record Found(
            String format,
            String where,
            double value,
            @Nullable String unit) {}

    private final List<Found> found = new ArrayList<>();
    private @Nullable String time;

    private Fields() {}

    /** The fields of a message; none where it has no numbers. */
    public static Fields of(String payload) {
        var fields = new Fields();
        try {
            fields.found.add(new Found("text", "", Values.number(payload, Map.of()), null));
            return fields;
        } catch (Refused notANumber) {
            fields.inJson(payload);
        }
        return fields;
    }

    private void inJson(String payload) {
        try {
            JsonNode document = Json.parse(payload);
            if (document.isArray()) {
                for (SenMl.Resolved entry : SenMl.resolve(document)) {
                    Double value = entry.value();
                    if (value != null && found.size() < MOST) {
                        found.add(new Found("senml", entry.name(), value, entry.unit()));
                    }
                }
            } else {
                collect(document, JsonPointer.empty());
            }
        } catch (Refused neither) {
            // Words, or bytes that are no text: there is nothing to offer.
            found.clear();
        }
    }

    private void collect(JsonNode node, JsonPointer at) {
        node.fields().forEachRemaining(field -> {
            JsonPointer here = at.appendProperty(field.getKey());
            JsonNode value = field.getValue();
            if (time == null && TIMES.contains(field.getKey().toLowerCase(Locale.ROOT)) && isTime(value)) {
                time = here.toString();
            } else if (value.isNumber() && Double.isFinite(value.doubleValue()) && found.size() < MOST) {
                found.add(new Found("json", here.toString(), value.doubleValue(), null));
            } else if (value.isObject()) {
                collect(value, here);
            }
        });
    }

    /** In this century: a counter of seconds since the sensor's start is no time. */
    private static boolean isTime(JsonNode value) {
        try {
            return Values.timeMs(value) > 946_684_800_000L;
        } catch (Refused none) {
            return false;
        }
    }

    /** In the order of the message. */
    public List<Found> found() {
        return List.copyOf(found);
    }

    /** JSON pointer to the message's own time, where it has one. */
    public Optional<String> time() {
        return Optional.ofNullable(time);
    }
}
