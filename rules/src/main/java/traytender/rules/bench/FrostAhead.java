package traytender.rules.bench;

import java.time.Instant;
import traytender.rules.judge.RoomFacts;

/**
 * How low the coming night will go outdoors: the air cools after sunset with the square root of time (Brunt 1941), carried on
 * to sunrise from how it has cooled so far. <b>Not thread-safe.</b>
 */
final class FrostAhead {
    private static final long HOUR_MS = 3_600_000;
    /** From this long after sunset on the cooling so far says enough. */
    private static final long FIRST_MS = 3 * HOUR_MS / 2;
    /** Doubt of the forecast, C: frost is a risk already this much above the limit; our choice. */
    private static final double DOUBT_C = 2;

    private double atSunset = Double.NaN;
    private long sunsetMs = Long.MIN_VALUE;

    FrostAhead() {}

    FrostAhead copy() {
        var copy = new FrostAhead();
        copy.atSunset = atSunset;
        copy.sunsetMs = sunsetMs;
        return copy;
    }

    void fill(RoomFacts facts, long minuteMs, SunTimes sun, boolean open) {
        facts.lowestAhead = Double.NaN;
        facts.riskBelow = facts.frost + DOUBT_C + (open ? 1.5 : 0);
        facts.sunrise = Instant.ofEpochMilli(sun.sunriseMs(minuteMs));
        facts.rough = false;
        if (!sun.isNight(minuteMs)) {
            facts.lowestAhead = open ? facts.air : Double.NaN;
            return;
        }
        long sunset = sun.sunsetMs(minuteMs);
        if (sunset != sunsetMs) {
            sunsetMs = sunset;
            atSunset = facts.air;
        }
        double since = minuteMs - sunset;
        double night = sun.sunriseMs(minuteMs) - sunset;
        if (since < FIRST_MS || Double.isNaN(facts.air) || Double.isNaN(atSunset)) {
            return;
        }
        double cooled = Math.max(0, atSunset - facts.air);
        facts.lowestAhead = Math.min(facts.air, atSunset - cooled * Math.sqrt(night / since));
    }
}
