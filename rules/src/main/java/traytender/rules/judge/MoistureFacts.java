package traytender.rules.judge;

import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.site.Zone;

/**
 * What is so at one moisture probe at the end of a minute, every number worked out and beside the limit it is compared with.
 * Filled anew each minute by the unit that owns it. Moisture is a fraction of container capacity, NaN is unknown. <b>Not
 * thread-safe.</b>
 */
public final class MoistureFacts {
    public String tray = "";
    public String probe = "";
    public Zone zone = Zone.TRAY;
    /** The variety whose limits these are; null without a sowing. */
    public @Nullable String sowing;

    /** Whether the probe is well and its reading fresh. */
    public boolean trusted;

    public double moisture = Double.NaN;
    public double dryLine;
    /** The dry line, raised by the clear margin while a dry alert is open. */
    public double dryBelow;

    public double wetLine;
    /** How long it has been above the wet line, in hours; 0 when it is not. */
    public double hoursWet;

    public double wetHours;
    /** Under a dome or sheet, or in the soak after potting up: wet is right. */
    public boolean wetIsRight;

    /** Hours until the dry line is expected, the next watering thought away; NaN when not within reach. */
    public double hoursToDry = Double.NaN;
    /** Hours by which the dry line is reached at the latest, at 80 percent; NaN as above. */
    public double hoursToDryLatest = Double.NaN;
    /** How far ahead to look: the crop's horizon or the next morning round, whichever is later, in hours. */
    public double horizonHours;
    /** {@code horizonHours}, a little longer while the alert is open. */
    public double soonWithinHours;
    /** Half the width of the forecast's interval, in hours. */
    public double forecastDoubtHours = Double.NaN;
    /** How much doubt is borne before the grower is told, in hours. */
    public double doubtBorneHours;

    public Alert.@Nullable Forecast forecast;

    /** Whether this is the fastest drying place of its tray. */
    public boolean driesFastest;
    /** Loss since the last watering over that of the slowest zone, the probes' noise given to the slower; NaN when unknown. */
    public double lossRatio = Double.NaN;
    /** Moisture lost since the last watering; NaN when unknown. */
    public double lost = Double.NaN;
    /** The ratio to compare with, lowered while the alert is open. */
    public double unevenAbove;

    public double unevenRatio;
    /** The zone that dries slowest. */
    public Zone slowestZone = Zone.TRAY;

    /** Minutes since the last watering of the tray began; NaN when none is known. */
    public double minutesSinceWatering = Double.NaN;
    /** How much this place gained by it; NaN when unknown. */
    public double rise = Double.NaN;
    /** What it lacked before it. */
    public double lackedBefore = Double.NaN;
    /** The largest gain of another zone. */
    public double othersRise = Double.NaN;
    /** Whether the watering was meant for this zone. */
    public boolean wateringMeantIt;
    /** How long a watering may take to show, in minutes. */
    public double wateringShowsMinutes = 40;

    /** How long a condition must last, in minutes. */
    public double lastingMinutes;

    /** A fact with nothing known. */
    public MoistureFacts() {}
}
