package traytender.dashboard.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import traytender.config.folder.SiteEdit;
import traytender.config.folder.SiteEdit.Things;
import traytender.dashboard.record.Json;

/** Changes of the site's file as they come in: what each edits, and in the grower's words. */
final class SetupChanges {
    /** Most items of one change; our choice, ten trays of fifty sowings. */
    private static final int MOST = 500;

    private static final String[] FIELDS = {
        "do", "of", "id", "ids", "tray", "number", "probe", "keys", "items", "at", "calibration", "since"
    };
    private static final ObjectMapper MAPPER = new ObjectMapper();

    /** One change. */
    record One(String words, UnaryOperator<SiteEdit> edit) {}

    private final List<One> all = new ArrayList<>();

    SetupChanges(List<JsonNode> changes) {
        if (changes.isEmpty()) {
            throw Answer.wrong("changes is missing: a list of what is to be changed");
        }
        changes.forEach(change -> all.add(one(new Body(change, FIELDS))));
    }

    /** In the grower's words. */
    String words() {
        return all.stream().map(One::words).distinct().collect(Collectors.joining("; "));
    }

    /** All of them, in their order. */
    SiteEdit edit(SiteEdit before) {
        SiteEdit after = before;
        for (One one : all) {
            after = one.edit.apply(after);
        }
        return after;
    }

    private static One one(Body body) {
        String what = body.needed("do");
        return switch (what) {
            case "site" -> {
                var keys = map(body, "keys");
                yield new One("the site's " + KeyWords.of(keys), edit -> edit.site(keys));
            }
            case "put" -> put(body);
            case "add" -> add(body);
            case "remove" -> {
                Things of = things(body);
                String id = body.needed("id");
                yield new One(id + " taken away", edit -> edit.remove(of, id));
            }
            case "order" -> {
                Things of = things(body);
                List<String> ids = body.texts("ids", MOST);
                yield new One("order of the " + of.word(), edit -> edit.reorder(of, ids));
            }
            case "sow" -> {
                String tray = body.needed("tray");
                var items = items(body);
                yield new One(
                        items.size() + (items.size() == 1 ? " sowing in " : " sowings in ") + tray,
                        edit -> edit.sow(tray, items));
            }
            case "unsow" -> {
                String tray = body.needed("tray");
                int number = body.number("number", 0, MOST)
                        .orElseThrow(() -> Answer.wrong("number is missing"))
                        .intValue();
                yield new One("a sowing of " + tray + " taken away", edit -> edit.removeSowing(tray, number));
            }
            case "move" -> {
                String probe = body.needed("probe");
                var at = map(body, "at");
                var since = body.time("since").orElseThrow(() -> Answer.wrong("since is missing"));
                yield new One(
                        probe + " moved to " + KeyWords.place(at) + " from " + Json.text(since) + " on",
                        edit -> edit.move(probe, at, since));
            }
            case "calibrate" -> {
                String probe = body.needed("probe");
                var calibration = map(body, "calibration");
                var since = body.time("since");
                yield new One(
                        probe + " calibrated"
                                + since.map(time -> " from " + Json.text(time) + " on")
                                        .orElse(" for all its readings"),
                        edit -> since.isPresent()
                                ? edit.calibrate(probe, notNull(calibration), since.get())
                                : edit.put(Things.PROBES, probe, Map.of("calibration", calibration)));
            }
            default -> throw Answer.wrong("do is none of site, put, add, remove, order, sow, unsow, move, calibrate");
        };
    }

    private static One put(Body body) {
        Things of = things(body);
        String id = body.needed("id");
        var keys = map(body, "keys");
        return new One(id + ": " + KeyWords.of(keys), edit -> edit.put(of, id, keys));
    }

    private static One add(Body body) {
        Things of = things(body);
        var items = items(body);
        String ids = items.stream().map(item -> String.valueOf(item.get("id"))).collect(Collectors.joining(", "));
        return new One("new " + of.word() + ": " + ids, edit -> edit.add(of, items));
    }

    private static Things things(Body body) {
        String word = body.needed("of").toUpperCase(Locale.ROOT);
        for (Things things : Things.values()) {
            if (things.name().equals(word)) {
                return things;
            }
        }
        throw Answer.wrong("of is none of rooms, mats, trays, probes");
    }

    private static List<Map<String, @Nullable Object>> items(Body body) {
        List<JsonNode> items = body.list("items", MOST);
        if (items.isEmpty()) {
            throw Answer.wrong("items is missing");
        }
        return items.stream().map(SetupChanges::map).toList();
    }

    private static Map<String, @Nullable Object> map(Body body, String name) {
        return map(body.part(name));
    }

    private static Map<String, @Nullable Object> map(JsonNode node) {
        if (!node.isObject() || node.isEmpty()) {
            throw Answer.wrong("right is an object with the keys of the site's file");
        }
        var map = new LinkedHashMap<String, @Nullable Object>();
        node.fields()
                .forEachRemaining(
                        field -> map.put(field.getKey(), MAPPER.convertValue(field.getValue(), Object.class)));
        return map;
    }

    private static Map<String, Object> notNull(Map<String, @Nullable Object> map) {
        var all = new LinkedHashMap<String, Object>();
        map.forEach((key, value) -> {
            if (value != null) {
                all.put(key, value);
            }
        });
        return all;
    }
}
