package traytender.config.folder;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crop;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;

/** What the crop files read so far say of one crop, with the place of every number. <b>Not threadsafe.</b> */
final class CropDraft {
    /** A number and where it stands. */
    record Given(double value, Field place) {}

    final String name;
    final Field place;

    @Nullable
    Boolean pottedUp;

    @Nullable
    Double plantOutWeeks;

    Crop.@Nullable Emergence emergence;

    @Nullable
    Double trueLeafDegreeDays;

    final Map<Stage, Map<LimitKey, Given>> stages = new EnumMap<>(Stage.class);
    final Map<Stage, Field> stagePlaces = new EnumMap<>(Stage.class);
    final Map<String, String> sources = new HashMap<>();

    CropDraft(String name, Field place) {
        this.name = name;
        this.place = place;
    }

    /** This draft with another one beneath it, which fills what this one leaves out. */
    CropDraft over(CropDraft base) {
        var whole = new CropDraft(name, place);
        whole.pottedUp = pottedUp == null ? base.pottedUp : pottedUp;
        whole.plantOutWeeks = plantOutWeeks == null ? base.plantOutWeeks : plantOutWeeks;
        whole.emergence = emergence == null ? base.emergence : emergence;
        whole.trueLeafDegreeDays = trueLeafDegreeDays == null ? base.trueLeafDegreeDays : trueLeafDegreeDays;
        whole.stagePlaces.putAll(stagePlaces);
        for (Stage stage : Stage.values()) {
            var limits = new EnumMap<LimitKey, Given>(LimitKey.class);
            limits.putAll(base.stages.getOrDefault(stage, Map.of()));
            limits.putAll(stages.getOrDefault(stage, Map.of()));
            if (!limits.isEmpty()) {
                whole.stages.put(stage, limits);
            }
        }
        whole.sources.putAll(base.sources);
        whole.sources.putAll(sources);
        return whole;
    }

    /** The crop; null, and every error noted, when numbers are missing or contradict one another. */
    @Nullable
    Crop finish() {
        var limits = new EnumMap<Stage, Limits>(Stage.class);
        boolean whole = true;
        for (Stage stage : Stage.values()) {
            if (stage == Stage.PLANTED_OUT) {
                continue;
            }
            Limits ofStage = finish(stage, stages.getOrDefault(stage, Map.of()));
            if (ofStage == null) {
                whole = false;
            } else {
                limits.put(stage, ofStage);
            }
        }
        if (!whole) {
            return null;
        }
        return new Crop(
                name,
                pottedUp != null && pottedUp,
                plantOutWeeks == null ? 0 : plantOutWeeks,
                emergence,
                trueLeafDegreeDays == null ? Double.NaN : trueLeafDegreeDays,
                limits,
                sources);
    }

    private @Nullable Limits finish(Stage stage, Map<LimitKey, Given> given) {
        Field at = stagePlaces.getOrDefault(stage, place);
        var values = new EnumMap<LimitKey, Double>(LimitKey.class);
        given.forEach((key, one) -> values.put(key, one.value()));
        var missing = Arrays.stream(LimitKey.values())
                .filter(key -> !values.containsKey(key))
                .map(CropReading::wordInFile)
                .distinct()
                .toList();
        if (!missing.isEmpty()) {
            return at.refuse(
                    "the crop " + name + " is not built in, and its stage " + stage.word() + " has no "
                            + String.join(", ", missing),
                    "give them, or begin with \"like: tomato\" or another crop that is built in");
        }
        return Contradictions.note(name, stage, given, at) ? null : Limits.of(values);
    }
}
