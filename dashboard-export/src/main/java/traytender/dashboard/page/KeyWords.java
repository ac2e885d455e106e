package traytender.dashboard.page;

import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** What the site's file says, as a grower says it, for the list of what was changed. */
final class KeyWords {
    private static final Map<String, String> WORDS = Map.ofEntries(
            Map.entry("site", "name"),
            Map.entry("timezone", "clock"),
            Map.entry("location", "place on the map"),
            Map.entry("show", "temperature scale"),
            Map.entry("last-frost", "last frost"),
            Map.entry("morning-round", "morning round"),
            Map.entry("messages", "way of messages"),
            Map.entry("kind", "kind of room"),
            Map.entry("light", "hours of its lamps"),
            Map.entry("every", "how often it speaks"),
            Map.entry("message", "where its readings come from"));

    private KeyWords() {}

    /** The keys, each with its new value where that is short; what a new sensor measures and where, in one. */
    static String of(Map<String, ? extends @Nullable Object> keys) {
        if (keys.get("measures") != null && keys.get("at") instanceof Map<?, ?> at) {
            return keys.get("measures") + " in " + place(at);
        }
        return keys.entrySet().stream()
                .map(key -> word(key.getKey(), key.getValue()))
                .collect(Collectors.joining(", "));
    }

    private static String word(String key, @Nullable Object value) {
        String word = WORDS.getOrDefault(key, key);
        if (value == null) {
            return "no " + word;
        }
        return value instanceof String text ? word + " " + text : word;
    }

    /** A place as the file has it. */
    static String place(Map<?, ?> at) {
        if (at.get("row") != null) {
            return at.get("tray") + ", row " + at.get("row") + ", column " + at.get("column");
        }
        return String.valueOf(
                at.get("tray") != null ? at.get("tray") : at.get("mat") != null ? at.get("mat") : at.get("room"));
    }
}
