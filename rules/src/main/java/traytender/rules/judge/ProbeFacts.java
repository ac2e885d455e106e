package traytender.rules.judge;

import traytender.config.site.Quantity;
import traytender.config.site.Zone;

/** What is so with one probe at the end of a minute. Filled anew each minute. <b>Not thread-safe.</b> */
public final class ProbeFacts {
    public String probe = "";
    public Quantity measures = Quantity.MOISTURE;
    /** Where its trouble is told: its zone, or the tray for what concerns a whole tray. */
    public Zone zone = Zone.TRAY;

    /** Minutes for which nothing was heard although the program listened. */
    public double minutesSilent;

    public double silentAfterMinutes = Double.POSITIVE_INFINITY;
    public boolean stuck;
    public double hoursStuck;
    public boolean jumping;
    public boolean outOfRange;
    /** Whether it sends counts and has no calibration. */
    public boolean uncalibrated;

    public boolean odd;
    /** What it read in soaked, drained medium at first, and reads now; NaN when that has not wandered. */
    public double soakedAtFirst = Double.NaN;

    public double soakedNow = Double.NaN;
    /** The raw reading that would be full by now; NaN as above, or where its calibration has no such end. */
    public double offeredWet = Double.NaN;

    public boolean clockWrong;
    public double value = Double.NaN;
    /** Battery below this wants changing, percent; NaN for what is no battery. */
    public double batteryLow = Double.NaN;

    /** A fact with nothing known. */
    public ProbeFacts() {}
}
