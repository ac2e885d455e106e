package traytender.config.folder;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/**
 * What a YAML text means, freed from how it is laid out: maps, lists, texts, numbers, truths. A path is keys of maps and numbers
 * of list items, from 0. What is not there is {@link #NOTHING}, an empty value too.
 */
final class YamlTree {
    /** Stands for an empty value. */
    static final Object NOTHING = Map.of("nothing", true);

    private YamlTree() {}

    static Object of(Node node) {
        if (node instanceof MappingNode mapping) {
            var map = new LinkedHashMap<Object, Object>();
            for (NodeTuple pair : mapping.getValue()) {
                map.put(of(pair.getKeyNode()), of(pair.getValueNode()));
            }
            return map;
        }
        if (node instanceof SequenceNode sequence) {
            return sequence.getValue().stream().map(YamlTree::of).toList();
        }
        String written = ((ScalarNode) node).getValue();
        Tag tag = node.getTag();
        if (tag.equals(Tag.NULL)) {
            return NOTHING;
        }
        if (tag.equals(Tag.BOOL)) {
            return Boolean.valueOf(written);
        }
        return tag.equals(Tag.INT) || tag.equals(Tag.FLOAT) ? number(written) : written;
    }

    private static Object number(String written) {
        try {
            return new BigDecimal(written).stripTrailingZeros();
        } catch (NumberFormatException e) {
            return List.of("number", written);
        }
    }

    /** A value of maps, lists, texts, numbers and truths as it would be read from a file. */
    static Object ofValue(Object value) {
        if (value instanceof Map<?, ?> map) {
            var all = new LinkedHashMap<Object, Object>();
            map.forEach((key, one) -> all.put(key, ofValue(one)));
            return all;
        }
        if (value instanceof List<?> list) {
            return list.stream().map(YamlTree::ofValue).toList();
        }
        return value instanceof Number number ? new BigDecimal(number.toString()).stripTrailingZeros() : value;
    }

    /** The tree with null for what is empty. */
    static @Nullable Object plain(Object tree) {
        if (tree == NOTHING) {
            return null;
        }
        if (tree instanceof Map<?, ?> map) {
            var plain = new LinkedHashMap<Object, @Nullable Object>();
            map.forEach((key, one) -> plain.put(key, plain(one)));
            return plain;
        }
        if (tree instanceof List<?> list) {
            var plain = new ArrayList<@Nullable Object>();
            list.forEach(one -> plain.add(plain(one)));
            return plain;
        }
        return tree;
    }

    /** The tree with another value at a path, whose last key may be new. */
    static Object set(Object tree, List<?> path, Object value) {
        if (path.isEmpty()) {
            return ofValue(value);
        }
        List<?> rest = path.subList(1, path.size());
        if (tree instanceof Map<?, ?> map) {
            var changed = new LinkedHashMap<Object, Object>(map);
            Object before = changed.getOrDefault(path.get(0), Map.of());
            changed.put(path.get(0), set(before, rest, value));
            return changed;
        }
        var changed = new ArrayList<Object>((List<?>) tree);
        int index = (Integer) path.get(0);
        changed.set(index, set(changed.get(index), rest, value));
        return changed;
    }

    /** The tree without what is at a path. */
    static Object remove(Object tree, List<?> path) {
        Object parent = at(tree, path.subList(0, path.size() - 1));
        Object last = path.get(path.size() - 1);
        if (parent instanceof Map<?, ?> map) {
            var less = new LinkedHashMap<Object, Object>(map);
            less.remove(last);
            return set(tree, path.subList(0, path.size() - 1), less);
        }
        var less = new ArrayList<Object>((List<?>) parent);
        less.remove((int) (Integer) last);
        return set(tree, path.subList(0, path.size() - 1), less);
    }

    /** What is at a path; {@link #NOTHING} when nothing is. */
    static Object at(Object tree, List<?> path) {
        Object found = tree;
        for (Object step : path) {
            if (found instanceof Map<?, ?> map) {
                Object next = map.get(step);
                found = next == null ? NOTHING : next;
            } else if (found instanceof List<?> list && step instanceof Integer index && index < list.size()) {
                found = list.get(index);
            } else {
                return NOTHING;
            }
        }
        return found;
    }

    /** The place of the item with an id in a list; -1 when there is none. */
    static int indexOf(Object list, String id) {
        if (list instanceof List<?> items) {
            for (int i = 0; i < items.size(); i++) {
                // An id may be written as a number; it counts as it is written, so 7 and "7" are one.
                if (items.get(i) instanceof Map<?, ?> item && id.equals(String.valueOf(item.get("id")))) {
                    return i;
                }
            }
        }
        return -1;
    }
}
