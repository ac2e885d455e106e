package traytender.ingest.nursery.truth;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Tray;
import traytender.ingest.nursery.truth.Truth.Where;

/** What follows from the journal and the stage: {@code feed-wait}, and notes that a program may well give. */
final class JournalTruth {
    private JournalTruth() {}

    static void judge(Case found, Tray tray) {
        int end = found.trace().minutes();
        if (tray.stage() != Stage.GERMINATING) {
            may(found, tray, AlertKind.POT_UP_DUE, end, "true leaves may be due, or cells dry out in about a day");
        }
        if (tray.stage() == Stage.HARDENING) {
            may(found, tray, AlertKind.PLANT_OUT_READY, end, "hardening");
        }
        for (JournalEntry potted : found.journal(tray.id(), EntryKind.POTTED_UP)) {
            may(found, tray, AlertKind.POT_UP_DUE, end, "potted up");
            for (JournalEntry fed : found.journal(tray.id(), EntryKind.FED)) {
                tooSoon(found, tray, potted.time(), fed.time());
            }
        }
    }

    private static void tooSoon(Case found, Tray tray, Instant potted, Instant fed) {
        double days = Duration.between(potted, fed).toMinutes() / 1440.0;
        if (days < 0 || days > found.limits(tray).feedDays()) {
            return;
        }
        int at = found.trace().minuteOf(fed);
        may(found, tray, AlertKind.FEED_WAIT, found.trace().minutes(), "fed too soon");
        found.must(
                List.of(AlertKind.FEED_WAIT),
                Where.in(tray.id()),
                new Stretch(at, at + 60),
                at - 1,
                at + 60,
                List.of(),
                true);
    }

    private static void may(Case found, Tray tray, AlertKind kind, int end, String why) {
        found.may(List.of(kind), Where.in(tray.id()), 0, end + 60, List.of(), why);
    }
}
