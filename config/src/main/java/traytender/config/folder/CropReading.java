package traytender.config.folder;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.Node;
import traytender.config.crop.Crop;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Stage;

/** Reads one crop file. */
final class CropReading {
    static final List<String> KEYS = List.of(
            "crop", "like", "potted-up", "plant-out-weeks", "emergence", "true-leaf-degree-days", "stages", "sources");

    /** The stages a crop has limits for. */
    static final List<Stage> STAGES = Stream.of(Stage.values())
            .filter(stage -> stage != Stage.PLANTED_OUT)
            .toList();

    static final String ROOT_TARGET = "root-target";
    static final String DAMP_AIR = "damp-air";

    private static final List<String> STAGE_WORDS =
            STAGES.stream().map(Stage::word).toList();
    private static final List<String> LIMIT_WORDS =
            Stream.of(LimitKey.values()).map(CropReading::wordInFile).distinct().toList();

    private CropReading() {}

    /** The word under which a limit stands in a file: pairs stand under one. */
    static String wordInFile(LimitKey key) {
        return switch (key) {
            case ROOT_TARGET_LOW, ROOT_TARGET_HIGH -> ROOT_TARGET;
            case DAMP_AIR_HUMIDITY, DAMP_AIR_HOURS -> DAMP_AIR;
            default -> key.word();
        };
    }

    /** The words of a stage's limits, each once. */
    static List<String> limitWords() {
        return LIMIT_WORDS;
    }

    /**
     * What a file says of its crop; null, and an error noted, when it says of none.
     *
     * @param like the crop whose numbers it begins with is handed here; no call without one
     */
    static @Nullable CropDraft read(
            Node root, String file, String nameOfFile, Problems problems, Consumer<Field> like) {
        Field field = new Field(root, file, "the crop", problems);
        Keys keys = field.keys(KEYS);
        if (keys == null) {
            return null;
        }
        String name = keys.or("crop", nameOfFile, Field::id);
        Field nameField = keys.field("crop");
        if (nameField != null && !name.equals(nameOfFile)) {
            nameField.wrong("the crop is " + nameField.shown() + ", the file " + file, "give the file the crop's name");
        }
        var draft = new CropDraft(name, field);
        draft.pottedUp = keys.may("potted-up", Field::yes);
        draft.plantOutWeeks = keys.may("plant-out-weeks", value -> value.number(-30, 30, "weeks after the last frost"));
        draft.emergence = keys.may("emergence", CropReading::emergence);
        draft.trueLeafDegreeDays = keys.may("true-leaf-degree-days", value -> value.number(0, 5000, "C d"));
        Field stages = keys.field("stages");
        if (stages != null) {
            stages(stages, draft);
        }
        Field sources = keys.field("sources");
        if (sources != null) {
            sources(sources, draft);
        }
        Field begin = keys.field("like");
        if (begin != null) {
            like.accept(begin);
        }
        return draft;
    }

    private static Crop.@Nullable Emergence emergence(Field field) {
        Keys keys = field.keys(List.of("base", "degree-days"));
        if (keys == null) {
            return null;
        }
        Double base = keys.need("base", value -> value.number(-20, 25, "C"));
        Double days = keys.need("degree-days", value -> value.number(1, 5000, "C d"));
        return base == null || days == null ? null : new Crop.Emergence(base, days);
    }

    private static void stages(Field field, CropDraft draft) {
        Keys keys = field.keys(STAGE_WORDS);
        if (keys == null) {
            return;
        }
        for (Stage stage : STAGES) {
            Field ofStage = keys.field(stage.word());
            if (ofStage != null) {
                draft.stagePlaces.put(stage, ofStage);
                draft.stages.put(stage, limits(ofStage));
            }
        }
    }

    private static Map<LimitKey, CropDraft.Given> limits(Field stage) {
        var limits = new EnumMap<LimitKey, CropDraft.Given>(LimitKey.class);
        Keys keys = stage.keys(LIMIT_WORDS);
        if (keys == null) {
            return limits;
        }
        for (LimitKey key : LimitKey.values()) {
            Field field = keys.field(key.word());
            if (field != null && wordInFile(key).equals(key.word())) {
                put(limits, key, field);
            }
        }
        Field target = keys.field(ROOT_TARGET);
        if (target != null) {
            rootTarget(limits, target);
        }
        Field dampAir = keys.field(DAMP_AIR);
        Keys damp = dampAir == null ? null : dampAir.keys(List.of("humidity", "hours"));
        if (damp != null) {
            damp.may("humidity", value -> put(limits, LimitKey.DAMP_AIR_HUMIDITY, value));
            damp.may("hours", value -> put(limits, LimitKey.DAMP_AIR_HOURS, value));
        }
        return limits;
    }

    private static void rootTarget(Map<LimitKey, CropDraft.Given> limits, Field field) {
        List<Field> pair = field.items();
        if (pair.size() == 2) {
            put(limits, LimitKey.ROOT_TARGET_LOW, pair.get(0));
            put(limits, LimitKey.ROOT_TARGET_HIGH, pair.get(1));
        } else if (field.isList()) {
            field.wrong("root-target has " + pair.size() + " numbers", "[lowest, highest] is right");
        }
    }

    private static @Nullable Double put(Map<LimitKey, CropDraft.Given> limits, LimitKey key, Field field) {
        Double value = field.number(key.lowest(), key.highest(), Units.spoken(key.unit()));
        if (value != null) {
            limits.put(key, new CropDraft.Given(value, field));
        }
        return value;
    }

    private static void sources(Field field, CropDraft draft) {
        var allowed = new ArrayList<>(KEYS.subList(2, KEYS.size() - 2));
        allowed.addAll(STAGE_WORDS);
        Keys keys = field.keys(allowed);
        if (keys == null) {
            return;
        }
        for (String name : keys.names()) {
            if (!STAGE_WORDS.contains(name)) {
                keys.may(name, value -> note(draft, name, value));
            }
        }
        for (String stage : STAGE_WORDS) {
            Field ofStage = keys.field(stage);
            Keys limits = ofStage == null ? null : ofStage.keys(LIMIT_WORDS);
            if (limits != null) {
                limits.names().forEach(name -> limits.may(name, value -> note(draft, stage + "/" + name, value)));
            }
        }
    }

    /** Notes one source; the two limits of a pair share it. */
    private static @Nullable String note(CropDraft draft, String name, Field value) {
        String source = value.text();
        if (source == null) {
            return null;
        }
        switch (name.substring(name.indexOf('/') + 1)) {
            case ROOT_TARGET -> putBoth(draft, name, "-low", "-high", source);
            case DAMP_AIR -> putBoth(draft, name, "-humidity", "-hours", source);
            default -> draft.sources.put(name, source);
        }
        return source;
    }

    private static void putBoth(CropDraft draft, String name, String one, String other, String source) {
        draft.sources.put(name + one, source);
        draft.sources.put(name + other, source);
    }
}
