package traytender.rules.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.rules.heat.HeatModel;
import traytender.rules.heat.MatEvidence;

/**
 * What the mat under one tray does, by its power probe where there is one and by the tray's own temperatures in any case: a
 * {@link HeatModel} that is fitted as it runs, and for how long the tray has been heated. <b>Not thread-safe.</b>
 */
final class MatWatch {
    /** A thermostat's pause is not longer; our choice. */
    private static final double IN_USE_MINUTES = 90;
    /** Without a power probe a root zone this much over the room's air is taken to be heated, K; our choice. */
    private static final double HEATED_OVER_AIR = 3;
    /** Less than this over the air for {@value #COLD_MINUTES} minutes, K: nothing heats; our choice. */
    private static final double UNHEATED_OVER_AIR = 1.5;

    private static final double COLD_MINUTES = 45;
    private static final double MARGIN_C = 0.5;
    /** How fast the usual height over the air is forgotten: half of it in about eight hours; our choice. */
    private static final double USUAL_SHARE = 1.0 / 720;

    private HeatModel model = new HeatModel();
    private List<String> heard = List.of();
    private double minutesOverAir;
    private double minutesHeldSunless;
    private double minutesUnheated;
    private boolean seemsUsed;
    private double usualOverAir = Double.NaN;
    private double minutesHeatLost;

    MatWatch() {}

    MatWatch copy() {
        var copy = new MatWatch();
        copy.model = model.copy();
        copy.heard = heard;
        copy.minutesOverAir = minutesOverAir;
        copy.minutesHeldSunless = minutesHeldSunless;
        copy.minutesUnheated = minutesUnheated;
        copy.seemsUsed = seemsUsed;
        copy.usualOverAir = usualOverAir;
        copy.minutesHeatLost = minutesHeatLost;
        return copy;
    }

    /**
     * Takes a minute.
     *
     * @param roots which root-zone probes can be believed, {@code rootC} being their mean; NaN when none
     * @param power the mat's power probe while it can be believed; null otherwise
     * @param toldOff whether the journal says that the mat was put off by hand
     * @param sunless no sun can warm the tray now
     */
    void look(
            long minuteMs,
            List<String> roots,
            double rootC,
            double airC,
            @Nullable MatTrack power,
            boolean toldOff,
            boolean sunless) {
        if (!roots.equals(heard)) {
            heard = roots;
            model.skip();
        }
        double said = power == null ? (toldOff ? 0 : Double.NaN) : power.isHeating() ? 1 : 0;
        model.accept(minuteMs, rootC, airC, said);
        double overAir = rootC - airC;
        if (!Double.isNaN(overAir)) {
            minutesOverAir = overAir >= HEATED_OVER_AIR ? minutesOverAir + 1 : 0;
            minutesHeldSunless = sunless && overAir >= HEATED_OVER_AIR ? minutesHeldSunless + 1 : 0;
            minutesUnheated = overAir < UNHEATED_OVER_AIR ? minutesUnheated + 1 : 0;
            watchUse(minuteMs, overAir, power, sunless);
        }
        if (toldOff) {
            seemsUsed = false;
        }
    }

    /** What a mat holds its tray over the room's air is learnt while it does; half of that gone is heat lost. */
    private void watchUse(long minuteMs, double overAir, @Nullable MatTrack power, boolean sunless) {
        seemsUsed = minutesOverAir >= 60 || (seemsUsed && minutesUnheated < COLD_MINUTES);
        boolean surelyMat = power != null
                ? power.minutesSinceHeat(minuteMs) <= IN_USE_MINUTES
                : sunless || overAir > HEATED_OVER_AIR + 1;
        if (minutesOverAir >= 60 && surelyMat) {
            usualOverAir = Double.isNaN(usualOverAir) ? overAir : usualOverAir + USUAL_SHARE * (overAir - usualOverAir);
        }
        minutesHeatLost = overAir < 0.5 * usualOverAir ? minutesHeatLost + 1 : 0;
    }

    /** The tray lies on no mat now: what was seen of one says nothing of another. */
    void leave() {
        if (!heard.isEmpty() || seemsUsed) {
            model = new HeatModel();
            heard = List.of();
            minutesOverAir = 0;
            minutesHeldSunless = 0;
            minutesUnheated = 0;
            seemsUsed = false;
            usualOverAir = Double.NaN;
            minutesHeatLost = 0;
        }
    }

    HeatModel model() {
        return model;
    }

    /** Whether it heated within the last hour and a half, by its power probe, or seems to by the temperatures. */
    boolean isInUse(long minuteMs, @Nullable MatTrack power) {
        return power != null ? power.minutesSinceHeat(minuteMs) <= IN_USE_MINUTES : seemsUsed;
    }

    /** Hours for which the tray has been held over the room's air where no sun can do it. */
    double hoursHeldSunless() {
        return minutesHeldSunless / 60;
    }

    /** Minutes for which the tray has held less than half of the height over the air it usually holds. */
    double minutesHeatLost() {
        return minutesHeatLost;
    }

    /**
     * A mat that heats on holds its tray higher than its thermostat let it. By day the sun warms a tray too, though seldom by as
     * much as a mat; our choice.
     */
    double heatedOverAir(boolean night) {
        double least = night ? HEATED_OVER_AIR - MARGIN_C : HEATED_OVER_AIR + 1;
        return Double.isNaN(usualOverAir) ? least : Math.max(least, (night ? 0.6 : 0.9) * usualOverAir);
    }

    /** Whether it heats by the temperatures alone; null while they do not tell. */
    @Nullable
    Boolean heats(double airC) {
        return MatEvidence.heats(model, airC);
    }
}
