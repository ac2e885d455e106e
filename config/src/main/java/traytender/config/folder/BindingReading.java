package traytender.config.folder;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.Tag;
import traytender.config.site.Binding;
import traytender.config.site.Quantity;

/** Reads in which messages, and where in them, a probe's value stands. */
final class BindingReading {
    static final List<String> KEYS =
            List.of("topic", "format", "value", "time", "name", "heating", "resting", "lit", "dark");

    /** The words that stand for a number, with that number. */
    private static final Map<Quantity, Map<String, Double>> WORDS = Map.of(
            Quantity.MAT_POWER,
            Map.of("heating", 1.0, "resting", 0.0),
            Quantity.LIGHT,
            Map.of("lit", 1.0, "dark", 0.0));

    private static final Map<String, Set<String>> OF_FORMAT = Map.of(
            "text", Set.of("heating", "resting", "lit", "dark"),
            "json", Set.of("value", "time", "heating", "resting", "lit", "dark"),
            "senml", Set.of("name"));

    private BindingReading() {}

    static @Nullable Binding binding(Field field, @Nullable Quantity quantity) {
        Keys keys = field.keys(KEYS);
        if (keys == null) {
            return null;
        }
        String topic = keys.need("topic", Addresses::topic);
        String format = keys.need("format", value -> value.word(List.of("text", "json", "senml"), word -> word));
        if (format == null) {
            return null;
        }
        checkKeys(keys, format);
        Map<String, Double> words = words(keys, quantity);
        return switch (format) {
            case "json" -> json(keys, topic, words);
            case "senml" -> senMl(keys, topic);
            default -> topic == null ? null : new Binding.Text(topic, words);
        };
    }

    private static @Nullable Binding json(Keys keys, @Nullable String topic, Map<String, Double> words) {
        String value = keys.need("value", Addresses::pointer);
        String time = keys.may("time", Addresses::pointer);
        return topic == null || value == null ? null : new Binding.Json(topic, value, time, words);
    }

    private static @Nullable Binding senMl(Keys keys, @Nullable String topic) {
        String name = keys.need("name", Addresses::senMlName);
        return topic == null || name == null ? null : new Binding.SenMl(topic, name);
    }

    private static void checkKeys(Keys keys, String format) {
        Set<String> ofFormat = OF_FORMAT.getOrDefault(format, Set.of());
        for (String name : keys.names()) {
            Field field = keys.field(name);
            if (field != null && !List.of("topic", "format").contains(name) && !ofFormat.contains(name)) {
                field.wrong(
                        "a message in format " + format + " has no " + name,
                        "leave it out, or give the format it belongs to");
            }
        }
    }

    private static Map<String, Double> words(Keys keys, @Nullable Quantity quantity) {
        var words = new LinkedHashMap<String, Double>();
        for (String key : List.of("heating", "resting", "lit", "dark")) {
            Field field = keys.field(key);
            if (field == null) {
                continue;
            }
            Double meaning = quantity == null
                    ? Double.valueOf(0)
                    : WORDS.getOrDefault(quantity, Map.of()).get(key);
            if (meaning == null) {
                field.wrong(
                        "the word for " + key + " does not belong to " + (quantity == null ? "" : quantity.word()),
                        "heating and resting are for mat-power, lit and dark for light");
                continue;
            }
            String word = word(field);
            if (word != null && words.putIfAbsent(word, meaning) != null && quantity != null) {
                field.wrong("the word " + field.shown() + " stands for both", "two different words are right");
            }
        }
        return words;
    }

    /** A word of a payload; a JSON payload's true and false are words too. */
    private static @Nullable String word(Field field) {
        return field.node().getTag().equals(Tag.BOOL) ? field.written() : field.text();
    }
}
