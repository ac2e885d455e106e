package traytender.rules.judge;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is so in a room's air at the end of a minute, beside the limits of the most demanding sowing that stands in it. C and
 * percent, NaN is unknown. Filled anew each minute. <b>Not thread-safe.</b>
 */
public final class RoomFacts {
    public String room = "";
    public @Nullable String sowing;
    public List<String> trays = List.of();
    public List<String> airProbes = List.of();
    public List<String> humidityProbes = List.of();
    public List<String> lightProbes = List.of();
    public double lastingMinutes;
    /** Whether any watched sowing stands here. */
    public boolean planted;

    public boolean outdoors;
    public double air = Double.NaN;
    public double humidity = Double.NaN;
    /** Between sunset and sunrise. */
    public boolean night;

    public double nightCold;
    public double nightColdBelow;
    public double airHot;
    public double airHotFrom;
    /** Hours for which humidity has been at or over the limit. */
    public double hoursDamp;

    public double dampHumidity;
    public double dampHours;
    /** Whether every tray here is covered. */
    public boolean covered;

    /** Minutes dark in the lamps' hours; 0 when lit, outside them, or without lamps. */
    public double minutesDark;

    /** The lowest temperature expected before sunrise; NaN when there is no forecast. */
    public double lowestAhead = Double.NaN;
    /** Standard error of {@code lowestAhead}, C; NaN as above. */
    public double lowestDoubt = Double.NaN;
    /** What leaves under open sky then come to; NaN without a forecast, or when the evening is not clear. */
    public double leafAhead = Double.NaN;
    /** Below this the night is a risk: the frost limit and the doubt of the forecast. */
    public double riskBelow;

    public double frost;
    /** Whether the air itself is near the frost limit, so that the time for cover is now. */
    public boolean frostAtHand;

    public @Nullable Instant sunrise;
    /** Whether the forecast is the rough one made before two hours after sunset. */
    public boolean rough;

    /** A fact with nothing known. */
    public RoomFacts() {}
}
