package traytender.rules.bench;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import traytender.rules.judge.RoomFacts;
import traytender.rules.night.NightAhead;
import traytender.rules.night.NightLow;
import traytender.rules.view.NightView;

/** How low the coming night will go in one outdoor room, beside the frost limit of what stands there. <b>Not thread-safe.</b> */
final class FrostAhead {
    /** Frost is a risk while one night in ten would come to it: so many standard errors of the forecast above the limit. */
    private static final double ONE_IN_TEN = 1.28;
    /** Doubt beside the forecast's own, C: probes, and how the frame differs from its air probe's place; our choice. */
    private static final double LEAST_C = 1;

    private static final double MOST_C = 2.5;
    /** A rough forecast is told when two nights in three would come to frost: half a standard error below the limit. */
    private static final double TWO_IN_THREE = -0.5;
    /** Air within this of the frost limit wants cover at once, C: leaves run about that much colder on clear nights; our choice. */
    private static final double AT_HAND_C = 1;
    /** How far the forecast must come back past its line to close; our choice. */
    private static final double MARGIN_C = 1.5;

    private final NightAhead night;

    FrostAhead() {
        this(new NightAhead());
    }

    private FrostAhead(NightAhead night) {
        this.night = night;
    }

    FrostAhead copy() {
        return new FrostAhead(night.copy());
    }

    NightAhead night() {
        return night;
    }

    /** The coming night for the page; null while there is no forecast. */
    @Nullable
    NightView view(RoomFacts facts) {
        if (Double.isNaN(night.expected()) || facts.sunrise == null) {
            return null;
        }
        return new NightView(
                night.expected(),
                night.doubt(),
                facts.rough,
                facts.leafAhead,
                facts.sunrise,
                facts.planted ? facts.nightCold : Double.NaN,
                facts.planted ? facts.frost : Double.NaN);
    }

    /** Takes a minute of the room's air and fills what the frost rule compares. */
    void fill(RoomFacts facts, double dewPointC, long minuteMs, SunTimes sun, boolean open) {
        night.minute(minuteMs, facts.air, dewPointC, sun.sunsetMs(minuteMs), sun.sunriseMs(minuteMs));
        facts.rough = night.isRough(minuteMs);
        facts.lowestAhead = night.expected();
        double doubt = Math.max(LEAST_C, Math.min(MOST_C, ONE_IN_TEN * night.doubt()));
        facts.riskBelow = facts.frost + (facts.rough ? TWO_IN_THREE * night.doubt() : doubt) + (open ? MARGIN_C : 0);
        facts.lowestDoubt = night.doubt();
        facts.frostAtHand = facts.air <= facts.frost + AT_HAND_C;
        facts.leafAhead = night.isClear() || facts.rough ? NightLow.leaf(facts.lowestAhead) : Double.NaN;
        facts.sunrise = Instant.ofEpochMilli(sun.sunriseMs(minuteMs));
        if (Double.isNaN(facts.lowestAhead) && open && !sun.isNight(minuteMs)) {
            // The morning after: it stays told until the air itself is out of danger.
            facts.lowestAhead = facts.air;
            facts.riskBelow = facts.frost + LEAST_C + MARGIN_C;
        }
    }
}
