package traytender.rules.heat;

import org.jspecify.annotations.Nullable;

/**
 * What the root zone's temperature says of a mat, beside what the mat says of itself. Thresholds are our choice; they ask for
 * clear cases only, since an alert about electric heat must be right.
 */
public final class MatEvidence {
    private static final double SURELY_ON = 0.6;
    private static final double SURELY_OFF = 0.25;
    /** By day the sun, too, warms a tray: heat must then be as good as all of the mat's. */
    private static final double SURELY_ON_IN_SUN = 0.8;
    /** Less than this share is no mat that heats on. */
    private static final double STILL_ON = 0.3;
    /** Over the air at rest, K; more needs a source of heat. */
    private static final double HEATED = 3;

    /** Slower than this, K/h, is no cooling at rest but the room's own going down; our choice. */
    private static final double COOLS = -0.25;

    private MatEvidence() {}

    /** Whether it heats by the temperatures; null while they do not tell. */
    public static @Nullable Boolean heats(HeatModel model, double airC) {
        double share = model.inferredHeat();
        if (Double.isNaN(share) || Double.isNaN(airC)) {
            return null;
        }
        if (share >= SURELY_ON && isWarm(model, airC)) {
            return true;
        }
        return share <= SURELY_OFF ? Boolean.FALSE : null;
    }

    private static boolean isWarm(HeatModel model, double airC) {
        return model.root() - airC - model.restOverAir() > HEATED / 2;
    }

    /** Whether the temperatures show the mat's heat; false while nothing is known. */
    public static boolean isHeatSeen(HeatModel model, double airC, boolean sunless) {
        return model.inferredHeat() >= (sunless ? SURELY_ON : SURELY_ON_IN_SUN) && isWarm(model, airC);
    }

    /** Whether the place goes where it would go without heat. */
    public static boolean isNoHeatSeen(HeatModel model) {
        return model.inferredHeat() <= SURELY_OFF;
    }

    /**
     * Whether a mat that was found to heat on may still do so: heat is still seen, though less than at first would have been
     * asked for.
     */
    public static boolean mayStillHeat(HeatModel model, double airC, boolean sunless) {
        return model.inferredHeat() >= (sunless ? STILL_ON : 2 * STILL_ON) && model.root() - airC > HEATED / 2;
    }

    /**
     * Whether a mat that should heat does not: the root zone goes where it would go without heat.
     *
     * @param minutesOn since it was told to heat, or said it heats
     */
    public static boolean isNotHeating(HeatModel model, double minutesOn) {
        return minutesOn >= 3 * HeatModel.BLOCK_MINUTES && isNoHeatSeen(model) && model.perHour() < 0.3;
    }

    /**
     * Whether a mat that should rest heats on: warmer than the room, and not cooling as it would at rest.
     *
     * @param minutesOff since it was told to rest, or said it rests
     * @param sunless no sun can warm the tray
     */
    public static boolean isNotStopping(HeatModel model, double airC, double minutesOff, boolean sunless) {
        return minutesOff >= 3 * HeatModel.BLOCK_MINUTES
                && sunless
                && isHeatSeen(model, airC, true)
                && model.root() - airC > HEATED
                && model.perHour() > COOLS;
    }

    /**
     * Whether a root-zone probe seems to lie in the air: it fell to the air's temperature faster than medium can cool.
     *
     * @param fellK what it fell
     * @param withinHours in what time
     */
    public static boolean isInAir(HeatModel model, double rootC, double airC, double fellK, double withinHours) {
        double before = rootC + fellK;
        double slowest = model.ahead(before, airC, 0, withinHours);
        return fellK >= HEATED && Math.abs(rootC - airC) <= 1 && rootC < slowest - HEATED / 2;
    }

    /** Whether the room alone keeps the root zone at a temperature. */
    public static boolean isRoomWarmEnough(HeatModel model, double airC, double targetLowC) {
        return model.steady(airC, 0) >= targetLowC;
    }
}
