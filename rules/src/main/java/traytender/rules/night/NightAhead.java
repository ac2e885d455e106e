package traytender.rules.night;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How low one outdoor room's air will go before sunrise, told twice and then carried on:
 *
 * <ul>
 *   <li>from two hours before sunset on roughly, by the drop usual for the site and, the more so the clearer the day, by {@link
 *       NightLow};
 *   <li>two hours after sunset by {@link NightLow} as published, the more so the clearer the evening, and by the cooling since
 *       sunset, which goes with the square root of time (Brunt 1941);
 *   <li>from then on with each minute's air.
 * </ul>
 *
 * <p>Each forecast counts by its own doubt. The published one is another place's until this site's nights have passed; clear is
 * an evening that falls by 4 K from two hours before sunset to two hours after it, not clear one that falls by 2 K (our choice;
 * the method's own conditions are no cloud, fog, rain nor wind, which no probe here tells). Constant time a minute. <b>Not
 * thread-safe.</b>
 */
public final class NightAhead {
    /** How many nights are remembered. */
    public static final int REMEMBERED = 60;

    private static final long HOUR_MS = 3_600_000;
    private static final long TWO_HOURS_MS = 2 * HOUR_MS;
    /** A reading counts as that of an hour when it comes so much later at most. */
    private static final long LATE_MS = HOUR_MS / 2;
    /** Without air for so long the forecast is not carried on. */
    private static final long SILENT_MS = HOUR_MS;

    private static final double NOT_CLEAR_K = 2;
    private static final double CLEAR_K = 4;
    /** A day that swings by less was not clear, one that swings by more was, K; our choice. */
    private static final double DULL_DAY_K = 2;

    private static final double CLEAR_DAY_K = 6;
    /** From two hours before sunset to the lowest, before the site has shown its own, K; our choice. */
    private static final double USUAL_DROP_K = 7;
    /** Doubt of that drop before and after a night was seen, K; our choice. */
    private static final double FIRST_DROP_DOUBT_K = 4;

    private static final double DROP_DOUBT_K = 3;
    /** Share of the newest night in the usual drop; our choice. */
    private static final double NEWEST = 0.5;
    /** Doubt of the cooling carried on, from sunset to sunrise, K; our choice. */
    private static final double COOLING_DOUBT_K = 2;

    private final NightLow low;
    private final List<NightForecast> passed;
    private long sunsetMs = Long.MIN_VALUE;
    private long sunriseMs;
    private double before = Double.NaN;
    private double dewBefore = Double.NaN;
    private double atSunset = Double.NaN;
    private double atTwo = Double.NaN;
    private double dewAtTwo = Double.NaN;
    private double warmest = Double.NaN;
    private double coolest = Double.NaN;
    private double roughC = Double.NaN;
    private double told = Double.NaN;
    private double toldDoubt = Double.NaN;
    private double lowest = Double.NaN;
    private int minutes;
    private double usualDrop = USUAL_DROP_K;
    private int drops;
    private long heardMs = Long.MIN_VALUE;
    private double expected = Double.NaN;
    private double doubt = Double.NaN;

    /** Of a site of which nothing is known. */
    public NightAhead() {
        this(new NightLow(), new ArrayList<>());
    }

    private NightAhead(NightLow low, List<NightForecast> passed) {
        this.low = low;
        this.passed = passed;
    }

    /** A copy that goes on by itself. */
    public NightAhead copy() {
        var copy = new NightAhead(low.copy(), new ArrayList<>(passed));
        copy.sunsetMs = sunsetMs;
        copy.sunriseMs = sunriseMs;
        copy.before = before;
        copy.dewBefore = dewBefore;
        copy.atSunset = atSunset;
        copy.atTwo = atTwo;
        copy.dewAtTwo = dewAtTwo;
        copy.warmest = warmest;
        copy.coolest = coolest;
        copy.roughC = roughC;
        copy.told = told;
        copy.toldDoubt = toldDoubt;
        copy.lowest = lowest;
        copy.minutes = minutes;
        copy.usualDrop = usualDrop;
        copy.drops = drops;
        copy.heardMs = heardMs;
        copy.expected = expected;
        copy.doubt = doubt;
        return copy;
    }

    /**
     * Takes a minute.
     *
     * @param airC NaN when unknown
     * @param dewPointC NaN when unknown
     * @param setMs sunset of the night it is, or of the coming one
     * @param riseMs the sunrise after it
     */
    public void minute(long timeMs, double airC, double dewPointC, long setMs, long riseMs) {
        // The sun's library is good to a minute, and finds the same sunset a little differently from day and night.
        if (sunsetMs == Long.MIN_VALUE || Math.abs(setMs - sunsetMs) > 6 * HOUR_MS) {
            if (sunsetMs != Long.MIN_VALUE) {
                close();
            }
            begin(Math.round(setMs / 60_000.0) * 60_000, Math.round(riseMs / 60_000.0) * 60_000);
        }
        long since = timeMs - sunsetMs;
        if (!Double.isNaN(airC)) {
            heardMs = timeMs;
            note(since, airC, dewPointC);
        }
        boolean silent = heardMs == Long.MIN_VALUE || timeMs - heardMs > SILENT_MS;
        if (silent || since < -TWO_HOURS_MS) {
            expected = Double.NaN;
            doubt = Double.NaN;
        } else if (!Double.isNaN(airC)) {
            expect(since, airC);
        }
    }

    private void begin(long setMs, long riseMs) {
        sunsetMs = setMs;
        sunriseMs = riseMs;
        before = Double.NaN;
        dewBefore = Double.NaN;
        atSunset = Double.NaN;
        atTwo = Double.NaN;
        dewAtTwo = Double.NaN;
        roughC = Double.NaN;
        told = Double.NaN;
        toldDoubt = Double.NaN;
        warmest = Double.NaN;
        coolest = lowest;
        lowest = Double.NaN;
        minutes = 0;
    }

    private void note(long since, double airC, double dewPointC) {
        if (isFirstAt(since, -TWO_HOURS_MS, before)) {
            before = airC;
            dewBefore = dewPointC;
        } else if (isFirstAt(since, 0, atSunset)) {
            atSunset = airC;
        } else if (isFirstAt(since, TWO_HOURS_MS, atTwo)) {
            atTwo = airC;
            dewAtTwo = dewPointC;
        }
        if (since < 0) {
            warmest = Double.isNaN(warmest) ? airC : Math.max(warmest, airC);
            coolest = Double.isNaN(coolest) ? airC : Math.min(coolest, airC);
        } else {
            lowest = Double.isNaN(lowest) ? airC : Math.min(lowest, airC);
            minutes++;
        }
    }

    private static boolean isFirstAt(long since, long at, double known) {
        return Double.isNaN(known) && since >= at && since <= at + LATE_MS;
    }

    private void expect(long since, double airC) {
        if (since < TWO_HOURS_MS) {
            expectRoughly();
            return;
        }
        double night = sunriseMs - sunsetMs;
        double passedShare = Math.min(1, since / night);
        double left = Math.sqrt(Math.max(0, since - TWO_HOURS_MS) / Math.max(1, night - TWO_HOURS_MS));
        double published = airC + Math.min(0, low.lowest(atTwo, dewAtTwo) - atTwo) * (1 - Math.min(1, left));
        double publishedWeight = clear() / square(low.doubt());
        double cooled = Math.max(0, atSunset - airC);
        double carried = Math.min(airC, atSunset - cooled * Math.sqrt(1 / passedShare));
        double carriedWeight = 1 / square(0.5 + COOLING_DOUBT_K * Math.sqrt(1 - passedShare));
        weigh(published, publishedWeight, carried, carriedWeight);
        expected = Math.min(airC, expected);
        if (Double.isNaN(told) && since <= TWO_HOURS_MS + LATE_MS) {
            told = expected;
            toldDoubt = doubt;
        }
    }

    private void expectRoughly() {
        double doubtOfLow = low.roughDoubt();
        double doubtOfDrop = drops == 0 ? FIRST_DROP_DOUBT_K : DROP_DOUBT_K;
        weigh(
                low.roughLowest(before, dewBefore),
                clearDay() / square(doubtOfLow),
                before - usualDrop,
                1 / square(doubtOfDrop));
        roughC = expected;
    }

    /** The mean of two forecasts by their doubts; one that is unknown does not count. */
    private void weigh(double one, double oneWeight, double other, double otherWeight) {
        double first = Double.isNaN(one) || Double.isNaN(oneWeight) ? 0 : oneWeight;
        double second = Double.isNaN(other) || Double.isNaN(otherWeight) ? 0 : otherWeight;
        double weight = first + second;
        expected = weight == 0
                ? Double.NaN
                : ((first == 0 ? 0 : first * one) + (second == 0 ? 0 : second * other)) / weight;
        doubt = weight == 0 ? Double.NaN : 1 / Math.sqrt(weight);
    }

    /** How clear the evening is, 0 to 1, by how far it fell; NaN while unknown. */
    private double clear() {
        double fell = before - atTwo;
        return Double.isNaN(fell)
                ? Double.NaN
                : Math.max(0, Math.min(1, (fell - NOT_CLEAR_K) / (CLEAR_K - NOT_CLEAR_K)));
    }

    /** How clear the day was, 0 to 1, by how far it swung. */
    private double clearDay() {
        double swing = warmest - coolest;
        return Math.max(0, Math.min(1, (swing - DULL_DAY_K) / (CLEAR_DAY_K - DULL_DAY_K)));
    }

    /** The night is over: what came of it is kept, and learnt from when enough of it was heard. */
    private void close() {
        boolean heard = minutes >= 0.8 * (sunriseMs - sunsetMs) / 60_000.0;
        if (!heard) {
            return;
        }
        passed.add(forecast());
        if (passed.size() > REMEMBERED) {
            passed.remove(0);
        }
        if (clear() >= 0.5) {
            low.passed(atTwo, dewAtTwo, lowest, before);
        }
        double drop = before - lowest;
        if (!Double.isNaN(drop)) {
            usualDrop = drops == 0 ? drop : usualDrop + NEWEST * (drop - usualDrop);
            drops++;
        }
    }

    private NightForecast forecast() {
        return new NightForecast(sunsetMs, sunriseMs, roughC, told, toldDoubt, clear() >= 0.5, lowest, passed.size());
    }

    /** Nights that have passed, oldest first; a live list, not a copy. */
    public List<NightForecast> passed() {
        return passed;
    }

    /** The night it is, or the coming one, as far as it has come; null before the first minute. */
    public @Nullable NightForecast present() {
        return sunsetMs == Long.MIN_VALUE ? null : forecast();
    }

    /** Lowest to expect from now to sunrise, C; NaN by day, without air, or before there is anything to tell it by. */
    public double expected() {
        return expected;
    }

    /** Standard error of {@link #expected}, C; NaN as above. */
    public double doubt() {
        return doubt;
    }

    /** Whether {@link #expected} is the rough one made before two hours after sunset. */
    public boolean isRough(long timeMs) {
        return timeMs - sunsetMs < TWO_HOURS_MS;
    }

    /** Whether the evening was clear, so that leaves run colder than the air; false while unknown. */
    public boolean isClear() {
        return clear() >= 0.5;
    }

    private static double square(double value) {
        return value * value;
    }
}
