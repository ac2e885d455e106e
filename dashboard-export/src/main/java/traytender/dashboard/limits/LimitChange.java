package traytender.dashboard.limits;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crop;
import traytender.config.crop.Crops;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Stage;

/**
 * One limit moved by an amount.
 *
 * @param crop its name; null for every crop of the site
 * @param stage null for every stage
 * @param by added to what it is now, in the limit's unit; what would leave the limit's range stops at its end
 */
public record LimitChange(@Nullable String crop, @Nullable Stage stage, LimitKey key, double by) {
    /**
     * The new values that changes come to, by crop, stage and limit; only those that really change.
     *
     * @param used the crops of the site, which a change of every crop is about
     */
    public static Map<String, Map<Stage, Map<LimitKey, Double>>> values(
            List<LimitChange> changes, Crops crops, Set<String> used) {
        var values = new TreeMap<String, Map<Stage, Map<LimitKey, Double>>>();
        for (LimitChange change : changes) {
            for (String name : change.crop == null ? used : Set.of(change.crop)) {
                change.put(crops.get(name), values);
            }
        }
        values.values().forEach(stages -> stages.values().removeIf(Map::isEmpty));
        values.values().removeIf(Map::isEmpty);
        return values;
    }

    private void put(Crop crop, Map<String, Map<Stage, Map<LimitKey, Double>>> values) {
        for (Stage one : crop.stages().keySet()) {
            if (stage != null && stage != one) {
                continue;
            }
            var ofStage = values.computeIfAbsent(crop.name(), name -> new EnumMap<>(Stage.class))
                    .computeIfAbsent(one, name -> new EnumMap<>(LimitKey.class));
            double now = crop.limits(one).get(key);
            double moved = rounded(ofStage.getOrDefault(key, now) + by);
            double value = Math.min(key.highest(), Math.max(key.lowest(), moved));
            if (value == now) {
                ofStage.remove(key);
            } else {
                ofStage.put(key, value);
            }
        }
    }

    /** Without the dust of binary fractions: 0.45 and 0.05 are 0.5. */
    private static double rounded(double value) {
        return new BigDecimal(value, new MathContext(10)).doubleValue();
    }

    /** The crops with new values. */
    public static Crops applied(Map<String, Map<Stage, Map<LimitKey, Double>>> values, Crops crops) {
        var all = new HashMap<>(crops.byName());
        values.forEach((name, ofCrop) -> {
            Crop crop = crops.get(name);
            var stages = new EnumMap<>(crop.stages());
            ofCrop.forEach((one, limits) -> stages.put(one, crop.limits(one).with(limits)));
            all.put(
                    name,
                    new Crop(
                            crop.name(),
                            crop.pottedUp(),
                            crop.plantOutWeeks(),
                            crop.emergence(),
                            crop.trueLeafDegreeDays(),
                            stages,
                            crop.sources()));
        });
        return new Crops(all);
    }
}
