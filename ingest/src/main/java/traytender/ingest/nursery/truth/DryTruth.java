package traytender.ingest.nursery.truth;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Objects;
import java.util.function.IntToDoubleFunction;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Limits;
import traytender.config.site.Site;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Trace.Course;
import traytender.ingest.nursery.truth.Trace.Spell;
import traytender.ingest.nursery.truth.Truth.Where;

/** {@code dry}, {@code staying-wet} and {@code drying-soon} of one zone. */
final class DryTruth {
    private static final int NEVER = Integer.MAX_VALUE;

    private final Case found;
    private final Tray tray;
    private final Limits limits;
    private final SimulatedProbe probe;
    private final Zone zone;
    private final Course course;
    private final double margin;

    private DryTruth(Case found, Tray tray, SimulatedProbe probe) {
        this.found = found;
        this.tray = tray;
        this.probe = probe;
        limits = found.limitsAt(probe, tray);
        zone = found.zone(probe, tray);
        course = found.trace().course(probe);
        margin = Math.max(0.015, 1.2 * probe.traits().noise());
    }

    static void judge(Case found, Tray tray) {
        for (SimulatedProbe probe : found.trace().moistureOf(tray.id())) {
            var truth = new DryTruth(found, tray, probe);
            truth.dry();
            truth.wet();
            for (Spell spell : found.trace().spells(tray.id())) {
                truth.soon(spell);
            }
        }
    }

    private void dry() {
        double line = limits.dryLine();
        found.lasting(
                AlertKind.DRY,
                Where.in(tray.id(), zone),
                List.of(),
                minute -> course.low(minute) < line + margin,
                minute -> course.high(minute) < line - margin && !found.trace().ails(probe, minute),
                (int) limits.lastingMinutes(),
                found.trace().lateMinutes(probe),
                true);
    }

    /** Wet for longer than allowed; dips within the clear margin do not end a stretch but make it less than certain. */
    private void wet() {
        int longest = (int) (60 * limits.wetHours());
        double line = limits.wetLine();
        Where where = Where.in(tray.id(), zone, Zone.TRAY);
        int minutes = found.trace().minutes();
        for (Stretch could :
                Stretch.where(0, minutes, minute -> course.high(minute) > line - margin - limits.clearMargin())) {
            if (could.minutes() < longest - 45) {
                continue;
            }
            found.may(
                    List.of(AlertKind.STAYING_WET),
                    where,
                    could.from() + longest - 45,
                    could.to() + Case.GRACE,
                    List.of(),
                    "wet long enough, within the margin");
            Stretch.where(could.from(), could.to(), minute -> course.low(minute) > line + margin).stream()
                    .filter(plain -> plain.minutes() >= longest + 120 && healthy(plain))
                    .findFirst()
                    .ifPresent(plain -> found.must(
                            List.of(AlertKind.STAYING_WET),
                            where,
                            plain,
                            could.from() + longest - 45,
                            plain.from() + longest + 120,
                            List.of(),
                            true));
        }
    }

    private boolean healthy(Stretch stretch) {
        return Stretch.where(
                        stretch.from(), stretch.to(), minute -> found.trace().ails(probe, minute))
                .isEmpty();
    }

    /** When the zone crosses its dry line in a spell between waterings, the next one thought away. */
    private void soon(Spell spell) {
        double line = limits.dryLine();
        // A watering or the first readings need half an hour to show; a zone that is dry by then does not cross.
        int begin = spell.from() + 30;
        if (begin >= spell.to() || course.low(begin) < line) {
            may(spell.from(), Math.min(spell.to(), found.trace().minutes()) + Case.GRACE, "already dry");
            return;
        }
        int truth = first(spell, begin, minute -> truth(spell, minute), line);
        int seen = first(spell, begin, minute -> seen(spell, minute), line);
        int close = Math.min(
                first(spell, begin, minute -> truth(spell, minute), line + margin),
                first(spell, begin, minute -> seen(spell, minute), line + margin));
        if (truth != NEVER) {
            found.crosses(new Truth.Forecast(
                    tray.id(),
                    zone,
                    probe.probe().id(),
                    found.trace().time(spell.from()),
                    found.trace().time(spell.to()),
                    found.trace().time(truth),
                    found.trace().time(Math.min(truth, seen)),
                    found.trace().time(seen == NEVER ? truth : Math.max(truth, seen)),
                    guess(spell, begin, truth, line),
                    truth > spell.to()));
        }
        if (close != NEVER) {
            ahead(spell, close, truth, seen);
        }
    }

    /** See {@link BestGuess}; null when that would not be within sight. */
    private @Nullable Instant guess(Spell spell, int begin, int truth, double line) {
        double left = BestGuess.left(found.trace(), tray, probe, line, truth, seen(spell, truth));
        int guess = first(spell, begin, minute -> truth(spell, minute), line - left);
        return guess == NEVER ? null : found.trace().time(guess);
    }

    private void ahead(Spell spell, int close, int truth, int seen) {
        int over = Math.min(spell.to(), truth == NEVER || seen == NEVER ? spell.to() : Math.max(truth, seen) + 180);
        int earliest = NEVER;
        for (Stretch near :
                Stretch.where(spell.from(), over, minute -> close - minute <= 1.2 * horizonMinutes(minute) + 60)) {
            may(near.from(), near.to() + Case.GRACE, "crosses the dry line within the horizon");
            earliest = Math.min(earliest, near.from());
        }
        boolean truly = truth <= spell.to() && seen <= spell.to();
        int latest = truly ? Math.max(truth, seen) - 60 : 0;
        boolean longEnough = truly && Math.min(truth, seen) - spell.from() >= 8 * 60;
        if (longEnough && earliest < latest && shows(spell, latest) && healthy(new Stretch(spell.from(), latest))) {
            found.must(
                    List.of(AlertKind.DRYING_SOON),
                    Where.in(tray.id(), zone),
                    new Stretch(truth, Math.max(truth, seen)),
                    earliest,
                    latest,
                    List.of(),
                    true,
                    found.trace().time(truth));
        }
    }

    /** Whether five hours of the last two hours' slope reached the line, both in truth and as seen, half an hour before the last moment. */
    private boolean shows(Spell spell, int latest) {
        int at = latest - 30;
        int before = at - 120;
        if (before < spell.from() + 60) {
            return false;
        }
        double truth = course.truth()[at] - 2.5 * (course.truth()[before] - course.truth()[at]);
        double seen = course.seen()[at] - 2.5 * (course.seen()[before] - course.seen()[at]);
        return Math.max(truth, seen) < limits.dryLine();
    }

    private void may(int from, int to, String why) {
        found.may(List.of(AlertKind.DRYING_SOON), Where.in(tray.id(), zone), from, to, List.of(), why);
    }

    /** The longer of the horizon and the time to the next morning round. */
    private double horizonMinutes(int minute) {
        Site site = found.folder().site();
        ZonedDateTime now = found.trace().time(minute).atZone(site.timezone());
        LocalTime round = site.morningRound();
        ZonedDateTime next = now.with(round);
        if (!next.isAfter(now)) {
            next = now.plusDays(1).with(round);
        }
        double toRound = java.time.Duration.between(now, next).toSeconds() / 60.0;
        return Math.max(60 * limits.dryHorizonHours(), toRound);
    }

    private static int first(Spell spell, int begin, IntToDoubleFunction value, double line) {
        for (int minute = begin; minute < spell.to() + Trace.THOUGHT_MINUTES; minute++) {
            if (value.applyAsDouble(minute) < line) {
                return minute;
            }
        }
        return NEVER;
    }

    private double truth(Spell spell, int minute) {
        return minute < spell.to() ? course.truth()[minute] : thought(spell).truth()[minute - spell.to()];
    }

    private double seen(Spell spell, int minute) {
        return minute < spell.to() ? course.seen()[minute] : thought(spell).seen()[minute - spell.to()];
    }

    private Course thought(Spell spell) {
        return Objects.requireNonNull(spell.thought().get(probe.probe().id()));
    }
}
