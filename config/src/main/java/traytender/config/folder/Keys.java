package traytender.config.folder;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;

/** The keys of one mapping of a file, none of them twice. */
final class Keys {
    private final Field map;
    private final Map<String, Field> values = new LinkedHashMap<>();

    private Keys(Field map) {
        this.map = map;
    }

    /** The keys of a field; null, and an error noted, when it is no mapping. */
    static @Nullable Keys of(Field field, Collection<String> allowed) {
        if (!(field.node() instanceof MappingNode mapping)) {
            return field.refuse(
                    field.what() + " is " + field.shown(),
                    "a mapping with " + String.join(", ", allowed) + " is right");
        }
        var keys = new Keys(field);
        for (NodeTuple pair : mapping.getValue()) {
            keys.take(pair, allowed);
        }
        return keys;
    }

    /** The value of one key of a field, without a word about the others; null when it has none. */
    static @Nullable Field peek(Field field, String key) {
        if (!(field.node() instanceof MappingNode mapping)) {
            return null;
        }
        return mapping.getValue().stream()
                .filter(pair -> pair.getKeyNode() instanceof ScalarNode scalar
                        && scalar.getValue().equals(key))
                .map(pair -> new Field(pair.getValueNode(), field.file(), key, field.problems()))
                .findFirst()
                .orElse(null);
    }

    private void take(NodeTuple pair, Collection<String> allowed) {
        Node keyNode = pair.getKeyNode();
        var key = new Field(keyNode, map.file(), "a key", map.problems());
        if (!(keyNode instanceof ScalarNode scalar)) {
            key.wrong("a key of " + map.what() + " is no word", "one of " + String.join(", ", allowed) + " is right");
            return;
        }
        String name = scalar.getValue();
        var value = new Field(pair.getValueNode(), map.file(), name, map.problems());
        if (values.containsKey(name)) {
            key.wrong("the key " + key.shown() + " stands twice in " + map.what(), "keep one of them");
        } else if (allowed.contains(name)) {
            values.put(name, value);
        } else {
            key.wrong("unknown key " + key.shown() + " in " + map.what(), nearest(name, allowed));
        }
    }

    private static String nearest(String name, Collection<String> allowed) {
        return Nearest.to(name, allowed)
                .map(word -> "did you mean \"" + word + "\"?")
                .orElse("right are " + String.join(", ", allowed));
    }

    Field map() {
        return map;
    }

    boolean has(String key) {
        return values.containsKey(key);
    }

    Set<String> names() {
        return values.keySet();
    }

    @Nullable
    Field field(String key) {
        return values.get(key);
    }

    /** The value of a key that must be there. */
    <T> @Nullable T need(String key, Field.Reads<T> reads) {
        Field field = values.get(key);
        return field == null
                ? map.refuse(map.what() + " has no \"" + key + "\"", "give its " + key)
                : reads.from(field);
    }

    /** The value of a key that may be left out; null also then. */
    <T> @Nullable T may(String key, Field.Reads<T> reads) {
        Field field = values.get(key);
        return field == null ? null : reads.from(field);
    }

    /** The value of a key that may be left out, with what then holds. */
    <T> T or(String key, T otherwise, Field.Reads<T> reads) {
        T value = may(key, reads);
        return value == null ? otherwise : value;
    }

    /** The items of a key that may be left out. */
    <T> List<T> list(String key, Field.Reads<T> reads) {
        return or(key, List.of(), field -> field.list(reads));
    }
}
