package traytender.rules.words;

import java.util.List;
import java.util.Locale;
import traytender.rules.book.AlertBook.Text;
import traytender.rules.judge.Finding;
import traytender.rules.judge.ProbeFacts;

/** Words about probes. */
final class ProbeWords {
    private static final String CHANGE =
            "See to the probe's cable and contacts, or change it. Until then, judge that place by hand.";

    ProbeWords() {}

    Text of(Finding finding, ProbeFacts probe, List<String> alike) {
        String who = String.join(", ", alike);
        String says = switch (finding.kind()) {
            case PROBE_SILENT -> "Nothing heard from " + who + " for " + Words.hours(probe.minutesSilent / 60) + ".";
            case PROBE_STUCK -> who + " has read exactly the same for " + Words.hours(probe.hoursStuck) + ".";
            case PROBE_JUMPING -> who + " jumps to and fro.";
            case PROBE_RANGE ->
                probe.uncalibrated
                        ? who + " sends counts (" + Math.round(probe.value) + ") and has no calibration."
                        : who + " reads " + figure(probe) + ", which cannot be.";
            case PROBE_ODD -> odd(probe, who);
            case PROBE_CLOCK -> "Readings of " + who + " came while the program's own clock was wrong.";
            case BATTERY_LOW -> "Battery " + who + " is at " + Math.round(probe.value) + " %.";
            default -> throw new IllegalArgumentException("no words for " + finding.kind());
        };
        String does = switch (finding.kind()) {
            case PROBE_SILENT ->
                "See to the probe's power, cable, radio and clock: what is stamped ahead of the time is refused, what is stamped long ago"
                        + " counts as old. Until it speaks, judge that place by hand.";
            case PROBE_STUCK, PROBE_JUMPING -> CHANGE;
            case PROBE_RANGE ->
                probe.uncalibrated
                        ? "Calibrate it: its count in air-dry and in watered, drained medium. Until then, judge that place by hand."
                        : CHANGE;
            case PROBE_ODD ->
                Double.isNaN(probe.soakedNow)
                        ? "Push the probe back into its cell, firm the medium round it. Until then, judge that place by hand."
                        : recalibrate(probe);
            case PROBE_CLOCK -> "Set the computer's clock.";
            case BATTERY_LOW -> "Change the battery.";
            default -> throw new IllegalArgumentException("no words for " + finding.kind());
        };
        return new Text(says, does, alike, null, null);
    }

    private static String odd(ProbeFacts probe, String who) {
        if (Double.isNaN(probe.soakedNow)) {
            return who + " changed all at once to " + figure(probe) + " as if it had come out of the medium.";
        }
        return who + " reads " + Words.percent(probe.soakedNow)
                + " in soaked, drained medium, which is 100 %; at first it read " + Words.percent(probe.soakedAtFirst)
                + ". The tray's other probes read as ever.";
    }

    private static String recalibrate(ProbeFacts probe) {
        String look = "See whether it still sits well in its cell.";
        return Double.isNaN(probe.offeredWet)
                ? look + " If so, calibrate it anew."
                : look
                        + String.format(
                                Locale.ROOT,
                                " If so, its calibration's wet end would now be %.0f; nothing is changed by itself.",
                                probe.offeredWet);
    }

    private static String figure(ProbeFacts probe) {
        return switch (probe.measures) {
            case MOISTURE -> Words.percent(probe.value);
            case HUMIDITY, BATTERY -> Math.round(probe.value) + " %";
            case TEMPERATURE, AIR_TEMPERATURE, MAT_SURFACE -> String.format(Locale.ROOT, "%.1f C", probe.value);
            default -> String.format(Locale.ROOT, "%.1f", probe.value);
        };
    }
}
