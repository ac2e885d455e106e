package traytender.rules.judge;

import org.jspecify.annotations.Nullable;

/**
 * Where a tray stands in its calendar at the end of a minute: potting up, feeding, moving, planting out. NaN is unknown. Filled
 * anew each minute. <b>Not thread-safe.</b>
 */
public final class CalendarFacts {
    public String tray = "";
    public String room = "";
    public @Nullable String sowing;
    /** Hours from watered through to the dry line at the pace of a day; NaN when unknown. */
    public double hoursWetToDry = Double.NaN;
    /** Whether the crop is potted up and stands in plugs past germination. */
    public boolean awaitsPottingUp;
    /** Whether the grower has been told to pot up, which stays due until it is done or the stage moves on. */
    public boolean toldPottingUp;
    /** Whether true leaves are due by thermal time. */
    public boolean trueLeavesDue;

    /** Days since potting up; NaN when it was not. */
    public double daysSincePottingUp = Double.NaN;
    /** Whether it was moved since potting up. */
    public boolean movedSincePottingUp;
    /** Whether it was fed since potting up. */
    public boolean fedSincePottingUp;
    /** Days between potting up and the move. */
    public double movedAfterDays = Double.NaN;

    public double fedAfterDays = Double.NaN;
    public double recoveryDays;
    public double feedDays;

    /** Days hardened; NaN when not hardening. */
    public double daysHardened = Double.NaN;

    public double hardenDays;
    /** Days from the day at which the crop may be planted out; negative before it; NaN when not known. */
    public double daysPastPlantOut = Double.NaN;

    /** Lowest air expected in the coming night, C; NaN indoors, by day, or when unknown. */
    public double lowestAhead = Double.NaN;
    /** The coldest night since it hardens, C; NaN when none was seen outdoors. */
    public double coldestNight = Double.NaN;
    /** The medium's temperature, C; the room's air where no probe tells it; NaN when unknown. */
    public double medium = Double.NaN;

    public double frost = Double.NaN;
    public double airNightCold = Double.NaN;
    public double rootCold = Double.NaN;

    /** A fact with nothing known. */
    public CalendarFacts() {}
}
