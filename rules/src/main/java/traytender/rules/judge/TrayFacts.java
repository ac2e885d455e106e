package traytender.rules.judge;

import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Zone;

/**
 * What is so in a whole tray at the end of a minute: root zone, mat, stages and journal, beside the limits of the most
 * demanding sowing. Temperatures in C, NaN is unknown. Filled anew each minute. <b>Not thread-safe.</b>
 */
public final class TrayFacts {
    public String tray = "";
    public String room = "";
    public @Nullable String mat;
    public @Nullable String sowing;
    /** Healthy root-zone probes. */
    public List<String> rootProbes = List.of();

    public double lastingMinutes;

    /** Root zone at the place that is most over its own limit. */
    public double hottest = Double.NaN;

    public Zone hottestZone = Zone.TRAY;
    public String hottestProbe = "";
    public double rootHot;
    /** {@code rootHot}, lowered a little while the alert is open. */
    public double hotFrom;

    public double rootShutOff;
    public double shutOffFrom;
    /** Root zone over all its healthy probes. */
    public double rootMean = Double.NaN;

    public double rootColdest = Double.NaN;
    public double rootCold;
    /** {@code rootCold}, raised a little while the alert is open. */
    public double coldBelow;

    public double rootTargetLow;
    /** Centre minus the mean of edges and corners, K. */
    public double centreOverEdge = Double.NaN;

    public double rootSpread;
    public double spreadFrom;
    /** Change of the root zone over the last hour, K/h. */
    public double rootPerHour = Double.NaN;

    public double roomAir = Double.NaN;

    /** Whether any root-zone probe is placed in the tray. */
    public boolean hasRootProbe;
    /** Whether none of the tray's root-zone probes can be believed. */
    public boolean noRootProbe;

    /** Whether the mat heated within the last hour and a half, as it says or as the temperatures show. */
    public boolean matInUse;
    /** Whether that is known from a power probe or the journal, not worked out from temperatures. */
    public boolean matKnown;
    /** Whether it rests now. */
    public boolean matResting;
    /** Minutes for which it has reported heating without a pause; 0 when it does not. */
    public double minutesHeating;
    /** Minutes for which it has been off, or told to be; 0 when it is not. */
    public double minutesOff;

    /**
     * Minutes for which the root zone has been far less over the room's air than the mat usually holds it; 0 when it is not,
     * or when the mat was never seen to heat.
     */
    public double minutesHeatLost;

    /** How serious the gravest shut-off reason is that the grower is being told; 0 for none, up to 6 for too hot. */
    public int gravestTold;

    /** Whether the grower is being told that the room is warm enough. */
    public boolean roomWarmTold;

    /** How far the root zone must be over the room's air, K, for heat to be the mat's and not the sun's. */
    public double heatedOverAir;
    /** Whether it is between sunset and sunrise. */
    public boolean night;
    /** Whether no sun can warm the tray: it is night, or the room has no daylight to speak of. */
    public boolean sunless;
    /** Whether the temperatures show the mat's heat, by the model fitted to this tray. */
    public boolean heatSeen;
    /** Whether they show that a mat which should have rested for three quarters of an hour heats on. */
    public boolean heatsOn;
    /** Whether the grower is being told that the mat does not stop. */
    public boolean notStoppingTold;
    /** Whether he is, and heat is still seen. */
    public boolean stillHeatsOn;
    /** Whether the grower is being told that the mat does not heat, it is still asked for, and no heat is seen yet. */
    public boolean stillNoHeat;
    /** Where the root zone comes to if things stay as they are, C; NaN when unknown. */
    public double comesTo = Double.NaN;
    /** Hours until the hottest place reaches root-hot if things stay as they are; infinite when never, NaN when unknown. */
    public double hoursToHot = Double.NaN;

    public boolean ownThermostat;
    /** Other trays on the same mat. */
    public List<String> neighbours = List.of();
    /** Whether some sowing in it, or a neighbour's, still germinates. */
    public boolean someGerminate;
    /** Whether the journal says that seedlings are up. */
    public boolean emerged;
    /** Whether every watched sowing is past germination. */
    public boolean pastGermination;
    /** Hours since the last sowing left germination; NaN when not known. */
    public double hoursPastGermination = Double.NaN;
    /** Hours for which the tray has been held 3 K over the room's air where no sun can do it. */
    public double hoursHeldSunless;
    /** Hours for which the room alone has been warm enough for the root zone. */
    public double hoursRoomWarm;
    /** Whether the inside of the tray, over the mat, dries unevenly fast. */
    public boolean driesOverMat;

    public double driestMoisture = Double.NaN;

    /** A fact with nothing known. */
    public TrayFacts() {}
}
