package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Pattern;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/**
 * Whatever the layout, an edit changes what it should and nothing else. The expected values come from the YAML library's own
 * loading of both texts.
 */
class YamlTextPropertyTest {
    private static final Pattern COMMENT = Pattern.compile("# (note|above) \\d+( 🌱 é: \\[)?");
    private static final List<String> TEXTS =
            List.of("peat", "4-5", "a: b", "C", "true", "12", "x # y", "it's", "\"q\"", "Zoë", "{", "", " lead");

    @Property(seed = "20261127", tries = 400)
    void set_changesOneValueAlone(@ForAll Random random) {
        Map<String, Object> root = root(random);
        String text = LaidOut.of(root, random);
        List<Object> path = path(root, random, false);
        Object value = value(random, 1);

        String edited = YamlText.of(text).set(path, value, List.of()).text();

        assertThat(load(edited)).as(text + "\n" + path).isEqualTo(set(load(text), path, value));
        assertOneStretchChanged(text, edited);
    }

    @Property(seed = "20261128", tries = 400)
    void newKey_changesNothingElse(@ForAll Random random) {
        Map<String, Object> root = root(random);
        String text = LaidOut.of(root, random);
        List<Object> path = new ArrayList<>(pathToMap(root, random));
        path.add("fresh");
        Object value = random.nextBoolean() ? items(random) : value(random, 1);

        String edited = YamlText.of(text).set(path, value, List.of()).text();

        assertThat(load(edited)).as(text + "\n" + path).isEqualTo(set(load(text), path, value));
        assertThat(comments(edited)).isEqualTo(comments(text));
        assertOneStretchChanged(text, edited);
        assertThat(edited.length()).isGreaterThan(text.length());
    }

    @Property(seed = "20261129", tries = 400)
    void append_changesNothingElse(@ForAll Random random) {
        Map<String, Object> root = root(random);
        String text = LaidOut.of(root, random);
        List<?> more = items(random);

        String edited =
                YamlText.of(text).append(List.of("list"), more, List.of()).text();

        var expected = new ArrayList<Object>((List<?>) root.get("list"));
        expected.addAll(more);
        assertThat(load(edited)).as(text).isEqualTo(set(load(text), List.of("list"), expected));
        assertThat(comments(edited)).isEqualTo(comments(text));
    }

    @Property(seed = "20261130", tries = 400)
    void remove_changesNothingElse(@ForAll Random random) {
        Map<String, Object> root = root(random);
        String text = LaidOut.of(root, random);
        List<Object> path = path(root, random, true);

        String edited = YamlText.of(text).remove(path).text();

        assertThat(load(edited)).as(text + "\n" + path).isEqualTo(without(load(text), path));
        assertOneStretchChanged(text, edited);
    }

    @Property(seed = "20261201", tries = 400)
    void reorder_keepsEveryItemWithItsComments(@ForAll Random random) {
        Map<String, Object> root = root(random);
        String text = LaidOut.of(root, random);
        List<?> list = (List<?>) root.get("list");
        var order = new ArrayList<Integer>();
        for (int i = 0; i < list.size(); i++) {
            order.add(i);
        }
        Collections.shuffle(order, random);

        String edited = YamlText.of(text).reordered(List.of("list"), order).text();

        assertThat(load(edited))
                .as(text + "\n" + order)
                .isEqualTo(set(
                        load(text),
                        List.of("list"),
                        order.stream().map(list::get).toList()));
        assertThat(comments(edited)).containsExactlyInAnyOrderElementsOf(comments(text));
    }

    @Property(seed = "20261202", tries = 300)
    void wrapped_becomesAListOfOne(@ForAll Random random) {
        Map<String, Object> root = root(random);
        String text = LaidOut.of(root, random);

        String edited = YamlText.of(text).wrapped(List.of("map")).text();

        assertThat(load(edited)).as(text).isEqualTo(set(load(text), List.of("map"), List.of(root.get("map"))));
        assertThat(comments(edited)).isEqualTo(comments(text));
    }

    /** What is before and behind one stretch is the same, byte by byte; the stretch is as short as can be. */
    private static void assertOneStretchChanged(String before, String after) {
        int head = 0;
        while (head < Math.min(before.length(), after.length()) && before.charAt(head) == after.charAt(head)) {
            head++;
        }
        int tail = 0;
        while (tail < Math.min(before.length(), after.length()) - head
                && before.charAt(before.length() - 1 - tail) == after.charAt(after.length() - 1 - tail)) {
            tail++;
        }
        String gone = before.substring(head, before.length() - tail);
        // A stretch that goes belongs to the value that goes: the keys beside it are outside.
        assertThat(gone).doesNotContain("beside");
    }

    private static List<String> comments(String text) {
        return COMMENT.matcher(text).results().map(found -> found.group()).toList();
    }

    private static Map<String, Object> root(Random random) {
        var root = new LinkedHashMap<String, Object>();
        root.put("beside-1", 1);
        root.put("map", pair("one", value(random, 1), "two", value(random, 2)));
        root.put("beside-2", "x");
        root.put("list", items(random));
        root.put("last", value(random, 2));
        return root;
    }

    private static List<?> items(Random random) {
        var items = new ArrayList<Object>();
        for (int i = random.nextInt(4); i >= 0; i--) {
            var item = new LinkedHashMap<String, Object>();
            item.put("id", "T" + random.nextInt(100));
            item.put("deep", value(random, 2));
            item.put("more", value(random, 1));
            items.add(item);
        }
        return items;
    }

    private static Object value(Random random, int depth) {
        return switch (random.nextInt(depth > 0 ? 6 : 4)) {
            case 0 -> random.nextInt(2000);
            case 1 -> random.nextInt(2000) + 0.125;
            case 2 -> random.nextBoolean();
            case 3 -> TEXTS.get(random.nextInt(TEXTS.size()));
            case 4 -> List.of(value(random, depth - 1), value(random, depth - 1));
            default -> pair("a", value(random, depth - 1), "b", value(random, depth - 1));
        };
    }

    /** In order, unlike {@code Map.of}, whose order is another one on every run. */
    private static Map<String, Object> pair(String one, Object first, String two, Object second) {
        var map = new LinkedHashMap<String, Object>();
        map.put(one, first);
        map.put(two, second);
        return map;
    }

    private static List<Object> path(Map<String, Object> root, Random random, boolean isWithin) {
        var path = new ArrayList<Object>();
        Object at = root;
        while (true) {
            boolean isDeepEnough = !path.isEmpty() && (!isWithin || path.size() > 1);
            if (at instanceof Map<?, ?> map && !map.isEmpty() && (!isDeepEnough || random.nextBoolean())) {
                var keys = map.keySet().stream()
                        .filter(key -> !String.valueOf(key).startsWith("beside"))
                        .toList();
                path.add(keys.get(random.nextInt(keys.size())));
                at = map.get(path.get(path.size() - 1));
            } else if (at instanceof List<?> list && !list.isEmpty() && (!isDeepEnough || random.nextBoolean())) {
                path.add(random.nextInt(list.size()));
                at = list.get((Integer) path.get(path.size() - 1));
            } else {
                return path;
            }
        }
    }

    private static List<Object> pathToMap(Map<String, Object> root, Random random) {
        return switch (random.nextInt(3)) {
            case 0 -> List.of();
            case 1 -> List.of("map");
            default -> List.of("list", random.nextInt(((List<?>) root.get("list")).size()));
        };
    }

    private static Object load(String text) {
        return new Load(LoadSettings.builder().setSchema(new CoreSchema()).build()).loadFromString(text);
    }

    private static Object set(Object tree, List<?> path, Object value) {
        if (path.isEmpty()) {
            return value;
        }
        if (tree instanceof List<?> list) {
            var copy = new ArrayList<Object>(list);
            copy.set((Integer) path.get(0), set(copy.get((Integer) path.get(0)), path.subList(1, path.size()), value));
            return copy;
        }
        var copy = new LinkedHashMap<Object, Object>((Map<?, ?>) tree);
        copy.put(path.get(0), set(copy.get(path.get(0)), path.subList(1, path.size()), value));
        return copy;
    }

    private static Object without(Object tree, List<?> path) {
        Object step = path.get(0);
        if (tree instanceof List<?> list) {
            var copy = new ArrayList<Object>(list);
            if (path.size() == 1) {
                copy.remove((int) (Integer) step);
            } else {
                copy.set((Integer) step, without(copy.get((Integer) step), path.subList(1, path.size())));
            }
            return copy;
        }
        var copy = new LinkedHashMap<Object, Object>((Map<?, ?>) tree);
        if (path.size() == 1) {
            copy.remove(step);
        } else {
            copy.put(step, without(copy.get(step), path.subList(1, path.size())));
        }
        return copy;
    }
}
