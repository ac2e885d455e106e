package traytender.config.site;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Where a probe's raw value stands in the messages: topic and format. */
public sealed interface Binding {
    /** The exact MQTT topic, without wildcards. */
    String topic();

    /**
     * The payload is one number in text, or one of the words.
     *
     * @param words word to raw value; {@code heating}/{@code resting} and {@code lit}/{@code dark} are 1 and 0
     */
    record Text(String topic, Map<String, Double> words) implements Binding {
        public Text {
            words = Map.copyOf(words);
        }
    }

    /**
     * The payload is one JSON document.
     *
     * @param value RFC 6901 pointer to the value
     * @param time RFC 6901 pointer to the reading's time; null when it has none
     * @param words as in {@link Text}, for values that are words
     */
    record Json(String topic, String value, @Nullable String time, Map<String, Double> words) implements Binding {
        public Json {
            words = Map.copyOf(words);
        }
    }

    /**
     * The payload is an RFC 8428 SenML pack in JSON.
     *
     * @param name the resolved name of the record
     */
    record SenMl(String topic, String name) implements Binding {}
}
