package traytender.rules.words;

import java.util.List;
import java.util.Locale;
import traytender.rules.book.AlertBook.Text;
import traytender.rules.judge.CalendarFacts;
import traytender.rules.judge.Finding;

/** Words about a tray's calendar. */
final class CalendarWords {
    CalendarWords() {}

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
                        + " and its time from the last frost has come.";
                does = "Plant out when the coming nights stay above the crop's limit and the ground is warm enough.";
            }
            default -> throw new IllegalArgumentException("no words for " + finding.kind());
        }
        return new Text(says, does, List.of(), tray.sowing, null);
    }

    private static String days(double days) {
        long whole = Math.round(days);
        return days < 1 ? Words.hours(days * 24) : String.format(Locale.ROOT, whole == 1 ? "%d day" : "%d days", whole);
    }
}
