package traytender.rules.words;

import java.util.List;
import java.util.Locale;
import traytender.config.site.Site;
import traytender.rules.book.AlertBook.Text;
import traytender.rules.judge.CalendarFacts;
import traytender.rules.judge.Finding;

/** Words about a tray's calendar. */
final class CalendarWords {
    /** A night that may come so near to frost is no night to plant out before, C; our choice. */
    private static final double FROST_DOUBT_C = 2;

    private final Site site;

    CalendarWords(Site site) {
        this.site = site;
    }

    Text of(Finding finding, CalendarFacts tray) {
        String says;
        String does;
        switch (finding.kind()) {
            case POT_UP_DUE -> {
                says = tray.trueLeavesDue
                        ? "True leaves are due in " + tray.tray + " by the warmth since emergence."
                        : "Cells of " + tray.tray + " go from wet to dry in " + Words.hours(tray.hoursWetToDry) + ".";
                does = "Look at leaves and roots; pot up when the plugs hold together.";
            }
            case MOVE_WAIT -> {
                says = tray.tray + " was moved " + days(tray.movedAfterDays) + " after potting up; recovery takes "
                        + days(tray.recoveryDays) + ".";
                does = "Keep it shaded and out of wind until it has recovered.";
            }
            case FEED_WAIT -> {
                says = tray.tray + " was fed " + days(tray.fedAfterDays) + " after potting up; better wait "
                        + days(tray.feedDays) + ".";
                does = "Give clear water only, for " + days(tray.feedDays - tray.daysSincePottingUp) + " more.";
            }
            case PLANT_OUT_READY -> {
                says = tray.tray + " has hardened for " + days(tray.daysHardened)
                        + " and its time from the last frost has come." + nights(tray);
                does = plantOut(tray);
            }
            default -> throw new IllegalArgumentException("no words for " + finding.kind());
        }
        return new Text(says, does, List.of(), tray.sowing, null);
    }

    private String nights(CalendarFacts tray) {
        String coldest = Double.isNaN(tray.coldestNight)
                ? ""
                : " Its coldest night outdoors came to " + Words.degrees(site, tray.coldestNight) + ".";
        String tonight = Double.isNaN(tray.lowestAhead)
                ? ""
                : " The coming night may fall to " + Words.degrees(site, tray.lowestAhead) + ".";
        String medium =
                Double.isNaN(tray.medium) ? "" : " Its medium is at " + Words.degrees(site, tray.medium) + " now.";
        return coldest + tonight + medium;
    }

    private String plantOut(CalendarFacts tray) {
        if (tray.lowestAhead <= tray.frost + FROST_DOUBT_C) {
            return "Wait for a milder night: plant out when the coming nights stay above "
                    + Words.degrees(site, tray.frost) + " with something to spare, and keep covers at hand.";
        }
        if (tray.medium < tray.rootCold) {
            return "Wait until the ground is warmer: roots want " + Words.degrees(site, tray.rootCold)
                    + " and more. Measure it a hand deep in the morning.";
        }
        if (tray.coldestNight < tray.airNightCold) {
            return "Look at the leaves first: it has had nights colder than " + Words.degrees(site, tray.airNightCold)
                    + ". Plant out what is unharmed, when the coming nights stay above that.";
        }
        return "Plant out when the coming nights stay above " + Words.degrees(site, tray.airNightCold)
                + " and the ground is at " + Words.degrees(site, tray.rootCold) + " or warmer.";
    }

    private static String days(double days) {
        long whole = Math.round(days);
        return days < 1 ? Words.hours(days * 24) : String.format(Locale.ROOT, whole == 1 ? "%d day" : "%d days", whole);
    }
}
