package traytender.config.crop;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A crop with its limits by stage and what is known of its pace.
 *
 * @param name for example {@code tomato}
 * @param pottedUp whether plug plants of this crop are potted up before planting out
 * @param plantOutWeeks weeks after (before, when negative) the site's last frost at which it is planted out
 * @param emergence thermal time to emergence; null when no source gives it
 * @param trueLeafDegreeDays degree days (C d) above the emergence base from emergence to true leaves; NaN when unknown
 * @param stages limits of every stage except {@link Stage#PLANTED_OUT}
 * @param sources where each number comes from, keyed {@code stage/key} or {@code key}; built-in crops name every one
 */
public record Crop(
        String name,
        boolean pottedUp,
        double plantOutWeeks,
        @Nullable Emergence emergence,
        double trueLeafDegreeDays,
        Map<Stage, Limits> stages,
        Map<String, String> sources) {
    /**
     * Thermal time to 50 percent emergence.
     *
     * @param baseC base temperature in C
     * @param degreeDays C d above the base
     */
    public record Emergence(double baseC, double degreeDays) {}

    public Crop {
        stages = Map.copyOf(stages);
        sources = Map.copyOf(sources);
    }

    /**
     * The limits at a stage; those of {@link Stage#HARDENING} once planted out.
     *
     * @throws IllegalStateException when the crop lacks the stage, which the reader does not let happen
     */
    public Limits limits(Stage stage) {
        Limits limits = stages.get(stage == Stage.PLANTED_OUT ? Stage.HARDENING : stage);
        if (limits == null) {
            throw new IllegalStateException("crop " + name + " has no limits for " + stage.word());
        }
        return limits;
    }
}
