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
    public boolean odd;
    public boolean clockWrong;
    public double value = Double.NaN;
    /** Battery below this wants changing, percent; NaN for what is no battery. */
    public double batteryLow = Double.NaN;

    /** A fact with nothing known. */
    public ProbeFacts() {}
}
