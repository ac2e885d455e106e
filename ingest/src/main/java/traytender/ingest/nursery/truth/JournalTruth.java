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

/**
 * What follows from the journal and the stage: {@code feed-wait} and {@code move-wait} by the days since potting up, {@code plant-out-ready} by those of hardening,
 * {@code pot-up-due} where cells plainly dry out within a day; and notes that a program may well give.
 */
final class JournalTruth {
    private static final double OUTGROWN_HOURS = 18;

    private JournalTruth() {}

    static void judge(Case found, Tray tray) {
        int end = found.trace().minutes();
        boolean pottedUp = found.isPottedUp(tray);
        if (pottedUp && tray.stage() != Stage.GERMINATING) {
            may(found, tray, AlertKind.POT_UP_DUE, end, "true leaves may be due, or cells dry out in about a day");
        }
        if (pottedUp && !found.journal(tray.id(), EntryKind.EMERGED).isEmpty()) {
            may(found, tray, AlertKind.POT_UP_DUE, end, "true leaves may be due by thermal time since emergence");
        }
        if (tray.stage() == Stage.HARDENING) {
            may(found, tray, AlertKind.PLANT_OUT_READY, end, "hardening");
            plantOut(found, tray);
        }
        if (pottedUp
                && tray.stage() == Stage.SEEDLING
                && found.journal(tray.id(), EntryKind.POTTED_UP).isEmpty()) {
            outgrown(found, tray);
        }
        for (JournalEntry potted : found.journal(tray.id(), EntryKind.POTTED_UP)) {
            may(found, tray, AlertKind.POT_UP_DUE, end, "potted up");
            for (JournalEntry fed : found.journal(tray.id(), EntryKind.FED)) {
                tooSoon(
                        found,
                        tray,
                        AlertKind.FEED_WAIT,
                        potted.time(),
                        fed.time(),
                        found.limits(tray).feedDays());
            }
            for (JournalEntry moved : found.journal(tray.id(), EntryKind.MOVED)) {
                double days = found.limits(tray).recoveryDays();
                tooSoon(found, tray, AlertKind.MOVE_WAIT, potted.time(), moved.time(), days);
            }
        }
    }

    private static void tooSoon(Case found, Tray tray, AlertKind kind, Instant potted, Instant done, double waitDays) {
        double days = Duration.between(potted, done).toMinutes() / 1440.0;
        if (days < 0 || days > waitDays) {
            return;
        }
        int at = found.trace().minuteOf(done);
        may(found, tray, kind, found.trace().minutes(), "too soon after potting up");
        found.must(List.of(kind), Where.in(tray.id()), new Stretch(at, at + 60), at - 1, at + 60, List.of(), true);
    }

    /** Required a day after the days of hardening are over, where the site's last frost is long past. */
    private static void plantOut(Case found, Tray tray) {
        for (JournalEntry hardened : found.journal(tray.id(), EntryKind.HARDENING)) {
            int over = found.trace().minuteOf(hardened.time())
                    + (int) (1440 * found.limits(tray).hardenDays());
            if (over < found.trace().minutes() && found.frostsArePast()) {
                found.must(
                        List.of(AlertKind.PLANT_OUT_READY),
                        Where.in(tray.id()),
                        new Stretch(over, found.trace().minutes()),
                        0,
                        over + 1440,
                        List.of(),
                        false);
            }
        }
    }

    /** Required two days after every zone went from full to dry for the second time within {@value #OUTGROWN_HOURS} hours of a watering. */
    private static void outgrown(Case found, Tray tray) {
        found.trace().spells(tray.id()).stream()
                .filter(spell -> spell.watered() && found.driesWithin(tray, spell, OUTGROWN_HOURS))
                .skip(1)
                .findFirst()
                .ifPresent(spell -> found.must(
                        List.of(AlertKind.POT_UP_DUE),
                        Where.in(tray.id()),
                        new Stretch(spell.from(), found.trace().minutes()),
                        0,
                        spell.from() + 2 * 1440,
                        List.of(),
                        false));
    }

    private static void may(Case found, Tray tray, AlertKind kind, int end, String why) {
        found.may(List.of(kind), Where.in(tray.id()), 0, end + 60, List.of(), why);
    }
}
