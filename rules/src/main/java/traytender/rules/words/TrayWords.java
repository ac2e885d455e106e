package traytender.rules.words;

import java.util.List;
import traytender.config.alert.ShutOffReason;
import traytender.config.site.Site;
import traytender.rules.book.AlertBook.Text;
import traytender.rules.judge.Finding;
import traytender.rules.judge.TrayFacts;

/** Words about a tray's root zone, its mat. The program advises; it never turns heat on. */
final class TrayWords {
    private static final String BREAKER =
            "With dry hands, cut the mat at its breaker or plug, behind the residual-current device (RCD/GFCI); do not touch "
                    + "wet cables. Leave it off until a licensed electrician, by local code, has seen it.";

    /** Overheating is foreseen this far; further ahead the room itself will have changed. Our choice. */
    private static final double FORESEEN_HOURS = 6;

    private final Site site;

    TrayWords(Site site) {
        this.site = site;
    }

    Text of(Finding finding, TrayFacts tray) {
        String says;
        String does;
        switch (finding.kind()) {
            case CENTRE_OVERHEATING -> {
                says = "Root zone in the " + tray.hottestZone.spoken() + " of " + tray.tray + " is at "
                        + degrees(tray.hottest) + ", limit " + degrees(tray.rootHot) + ".";
                does = overheatingDoes(tray);
            }
            case UNEVEN_HEAT -> {
                says = "Centre of " + tray.tray + " is " + difference(tray.centreOverEdge)
                        + " warmer than its edge, limit " + difference(tray.rootSpread) + "." + ahead(tray);
                does =
                        "Turn the mat down a little, lay something that spreads the heat under the tray, or turn the tray.";
            }
            case ROOT_COLD -> {
                says = "Root zone of " + tray.tray + " is at " + degrees(tray.rootMean) + ", cold below "
                        + degrees(tray.rootCold) + ".";
                does = tray.mat == null
                        ? "Move it to a warmer place or cover it; water sparingly while it is cold."
                        : "See whether its mat is on and warm; water sparingly while it is cold.";
            }
            case MAT_SHUT_OFF -> {
                says = shutOffSays(finding.reason(), tray);
                does = shutOffDoes(finding.reason(), tray);
            }
            case MAT_NOT_HEATING -> {
                says = "Mat under " + tray.tray + " should heat, but the root zone is at " + degrees(tray.rootMean)
                        + " (cold below " + degrees(tray.rootCold) + ") and does not warm.";
                does =
                        "With dry hands, look at plug, residual-current device and thermostat; feel whether the mat is warm. "
                                + "Do not open or mend it. Move the tray to a warmer place meanwhile.";
            }
            case MAT_NOT_STOPPING -> {
                says = "Mat under " + tray.tray + " should have rested for " + Words.hours(tray.minutesOff / 60)
                        + ", but the root zone is at " + degrees(tray.rootMean)
                        + " and warms, or stays warm, as it does over heat; the room is at " + degrees(tray.roomAir)
                        + "." + ahead(tray);
                does = BREAKER;
            }
            default -> throw new IllegalArgumentException("no words for " + finding.kind());
        }
        return new Text(says, does, tray.rootProbes, tray.sowing, null);
    }

    /** What comes if nothing is done, where that is too hot. */
    private String ahead(TrayFacts tray) {
        if (!(tray.hoursToHot < FORESEEN_HOURS) || tray.hottest >= tray.rootHot) {
            return "";
        }
        return " Left so, its hottest place comes to " + degrees(tray.rootHot) + ", too hot, in about "
                + Words.hours(Math.max(0.25, tray.hoursToHot)) + ".";
    }

    private static String overheatingDoes(TrayFacts tray) {
        if (tray.mat == null) {
            return "Shade the tray and give it air. Check its water.";
        }
        if (tray.notStoppingTold) {
            return BREAKER + " Give air, check the tray's water.";
        }
        if (!tray.matResting) {
            return "Turn the mat down, give air, check the tray's water." + neighbours(tray);
        }
        return "The mat is said to rest: shade the tray and give it air, and check its water. If the mat feels warm, "
                + "unplug it with dry hands.";
    }

    private String shutOffSays(@org.jspecify.annotations.Nullable ShutOffReason reason, TrayFacts tray) {
        if (reason == null) {
            throw new IllegalArgumentException("a shut-off without a reason");
        }
        return switch (reason) {
            case TOO_HOT ->
                "Root zone of " + tray.tray + " is at " + degrees(tray.hottest) + "; at " + degrees(tray.rootShutOff)
                        + " the mat must go off.";
            case EMERGED -> "Seedlings in " + tray.tray + " are up and the mat still heats." + ahead(tray);
            case STAGE -> "The mat under " + tray.tray + " heats although its plants are past germination.";
            case NO_PROBE ->
                "The mat under " + tray.tray + (tray.matKnown ? " heats" : " seems to be in use")
                        + (tray.hasRootProbe
                                ? " and no probe in its root zone can be believed."
                                : " and no probe tells how warm the root zone is.");
            case ROOM_WARM ->
                "The room is at " + degrees(tray.roomAir) + " and keeps " + tray.tray + " warm enough ("
                        + degrees(tray.rootTargetLow) + ") without the mat.";
            case DRYING_PATTERN -> "The inside of " + tray.tray + " dries much faster than its edge over the mat.";
        };
    }

    private String shutOffDoes(@org.jspecify.annotations.Nullable ShutOffReason reason, TrayFacts tray) {
        boolean cold = tray.roomAir < tray.rootCold;
        String act = tray.ownThermostat
                ? "Set the mat's own thermostat down"
                : cold && reason != ShutOffReason.TOO_HOT
                        ? "Turn the mat down, not off: the room is at " + degrees(tray.roomAir)
                        : "Turn the mat off";
        if (reason == ShutOffReason.TOO_HOT) {
            act =
                    "Turn the mat off now, with dry hands, and give air. If it does not cool within half an hour, cut it at "
                            + "its breaker";
        }
        if (reason == ShutOffReason.NO_PROBE) {
            act = tray.hasRootProbe
                    ? "Turn the mat off until a probe in the root zone reads again: put back one that came out of the medium"
                    : "Turn the mat off, or put a temperature probe into the medium over it";
        }
        return act + "." + neighbours(tray);
    }

    private static String neighbours(TrayFacts tray) {
        if (tray.neighbours.isEmpty()) {
            return "";
        }
        List<String> others = tray.neighbours;
        return " " + String.join(", ", others) + (others.size() == 1 ? " lies" : " lie")
                + " on the same mat: see what it needs first, or lift " + tray.tray + " off it.";
    }

    private String degrees(double celsius) {
        return Words.degrees(site, celsius);
    }

    private String difference(double kelvin) {
        return Words.difference(site, kelvin);
    }
}
