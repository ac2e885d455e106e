package traytender.config.folder;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Changes {@code site.yaml} and leaves every other character as it was, comments, order and layout included. Values are maps,
 * lists, texts, numbers and truths, with the keys that the file has. Whether they make a right site is the strict reader's to
 * say ({@link SiteReader#readWith}); this only refuses what cannot be changed alone. Immutable; a change gives a new one.
 */
public final class SiteEdit {
    private final YamlText yaml;

    private SiteEdit(YamlText yaml) {
        this.yaml = yaml;
    }

    /** Lists of things that have ids. */
    public enum Things {
        ROOMS,
        MATS,
        TRAYS,
        PROBES;

        /** The key in the file. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        private String one() {
            String word = word();
            return word.substring(0, word.length() - 1);
        }

        private List<String> keys() {
            return switch (this) {
                case ROOMS -> RoomReading.ROOM_KEYS;
                case MATS -> RoomReading.MAT_KEYS;
                case TRAYS -> TrayReading.KEYS;
                case PROBES -> ProbeReading.KEYS;
            };
        }
    }

    /**
     * A text to change.
     *
     * @throws UneditableException when it does not hold one block of keys
     */
    public static SiteEdit of(String siteYaml) {
        return new SiteEdit(YamlText.of(siteYaml));
    }

    /** A new file that names the site and nothing else. */
    public static SiteEdit begun(String name) {
        return of("site: " + YamlValue.flow(name) + "\n");
    }

    /** The text as it is now. */
    public String text() {
        return yaml.text();
    }

    /** What the file says: maps, lists, texts, numbers and truths; null for an empty value. */
    public Map<?, ?> keys() {
        return (Map<?, ?>) Objects.requireNonNull(YamlTree.plain(yaml.tree()));
    }

    /** The site's own keys set, such as {@code site} or {@code show}; an empty value takes the key away. */
    public SiteEdit site(Map<String, ? extends @Nullable Object> keys) {
        return new SiteEdit(put(yaml, List.of(), keys, SiteDocument.KEYS));
    }

    /** A thing with these keys set, which is made where there is none of that id; an empty value takes the key away. */
    public SiteEdit put(Things things, String id, Map<String, ? extends @Nullable Object> keys) {
        int index = YamlTree.indexOf(tree(things), id);
        if (index >= 0) {
            return new SiteEdit(put(yaml, List.of(things.word(), index), keys, things.keys()));
        }
        return add(things, List.of(with(Map.of("id", id), keys)));
    }

    /** New things at the end of their list, each with its id. */
    public SiteEdit add(Things things, List<? extends Map<String, ? extends @Nullable Object>> all) {
        var items = all.stream().map(keys -> inOrder(keys, things.keys())).toList();
        return new SiteEdit(yaml.append(List.of(things.word()), items, SiteDocument.KEYS));
    }

    /** Without one thing. */
    public SiteEdit remove(Things things, String id) {
        return new SiteEdit(yaml.remove(path(things, id)));
    }

    /** Things in another order; those that are not named keep theirs, behind the named ones. */
    public SiteEdit reorder(Things things, List<String> ids) {
        var order = new ArrayList<Integer>();
        ids.forEach(id -> order.add(index(things, id)));
        for (int i = 0; i < ((List<?>) tree(things)).size(); i++) {
            if (!order.contains(i)) {
                order.add(i);
            }
        }
        return new SiteEdit(yaml.reordered(List.of(things.word()), order));
    }

    /** More sowings in a tray. */
    public SiteEdit sow(String tray, List<? extends Map<String, ? extends @Nullable Object>> sowings) {
        List<Object> path = new ArrayList<>(path(Things.TRAYS, tray));
        path.add("sowings");
        var items = sowings.stream()
                .map(keys -> inOrder(keys, TrayReading.SOWING_KEYS))
                .toList();
        return new SiteEdit(yaml.append(path, items, TrayReading.KEYS));
    }

    /** Without one sowing of a tray, the first being 0. */
    public SiteEdit removeSowing(String tray, int number) {
        List<Object> path = new ArrayList<>(path(Things.TRAYS, tray));
        path.addAll(List.of("sowings", number));
        if (YamlTree.at(yaml.tree(), path) == YamlTree.NOTHING) {
            throw new UneditableException(tray + " has no sowing " + (number + 1));
        }
        return new SiteEdit(yaml.remove(path));
    }

    /**
     * A probe's place from some time on; what it told before keeps its meaning.
     *
     * @param since from when on, inclusive; whole seconds are kept
     */
    public SiteEdit move(String probe, Map<String, ?> at, Instant since) {
        return from(probe, "at", at, since);
    }

    /** A probe's calibration from some time on; what it told before keeps its meaning. */
    public SiteEdit calibrate(String probe, Map<String, ?> calibration, Instant since) {
        return from(probe, "calibration", calibration, since);
    }

    private SiteEdit from(String probe, String key, Map<String, ?> value, Instant since) {
        List<Object> path = new ArrayList<>(path(Things.PROBES, probe));
        path.add(key);
        Object now = YamlTree.at(yaml.tree(), path);
        String time = since.truncatedTo(ChronoUnit.SECONDS).toString();
        Map<String, @Nullable Object> dated = with(value, Map.of("since", time));
        YamlText list = yaml;
        if (now.equals("none") || now == YamlTree.NOTHING) {
            list = yaml.set(path, List.of(Map.of("none", true)), ProbeReading.KEYS);
        } else if (now instanceof Map<?, ?>) {
            list = yaml.wrapped(path);
        } else if (now instanceof List<?> before) {
            for (int i = 0; i < before.size(); i++) {
                if (before.get(i) instanceof Map<?, ?> one && time.equals(one.get("since"))) {
                    path.add(i);
                    return new SiteEdit(yaml.set(path, dated, List.of()));
                }
            }
        }
        return new SiteEdit(list.append(path, List.of(dated), ProbeReading.KEYS));
    }

    private static YamlText put(
            YamlText before, List<Object> to, Map<String, ? extends @Nullable Object> keys, List<String> order) {
        YamlText after = before;
        for (var key : keys.entrySet()) {
            List<Object> path = new ArrayList<>(to);
            path.add(key.getKey());
            Object now = YamlTree.at(after.tree(), path);
            Object value = key.getValue();
            if (value != null) {
                // What is so already is left as it is written.
                after = now.equals(YamlTree.ofValue(value)) ? after : after.set(path, value, order);
            } else if (now != YamlTree.NOTHING) {
                after = after.remove(path);
            }
        }
        return after;
    }

    private Object tree(Things things) {
        return YamlTree.at(yaml.tree(), List.of(things.word()));
    }

    private int index(Things things, String id) {
        int index = YamlTree.indexOf(tree(things), id);
        if (index < 0) {
            throw new UneditableException("there is no " + things.one() + " " + id);
        }
        return index;
    }

    private List<Object> path(Things things, String id) {
        return List.of(things.word(), index(things, id));
    }

    private static Map<String, @Nullable Object> with(
            Map<String, ? extends @Nullable Object> first, Map<String, ? extends @Nullable Object> more) {
        var all = new LinkedHashMap<String, @Nullable Object>(first);
        all.putAll(more);
        return all;
    }

    /** Keys as the file's own order has them; empty values left out, unknown keys last, for the reader to refuse. */
    private static Map<String, Object> inOrder(Map<String, ? extends @Nullable Object> keys, List<String> order) {
        var all = new LinkedHashMap<String, Object>();
        var names = new ArrayList<>(order);
        names.addAll(keys.keySet());
        for (String name : names) {
            Object value = keys.get(name);
            if (value != null) {
                all.putIfAbsent(name, value);
            }
        }
        return all;
    }
}
