package traytender.ingest.nursery.truth;

import java.util.List;
import java.util.Optional;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Quantity;
import traytender.config.site.Tray;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Truth.Where;

/**
 * The mat under a tray: {@code mat-not-heating} (told to heat for 90 minutes, truly no heat, below root-cold and not warming), {@code mat-not-stopping}
 * (resting for an hour by its report, truly heating, warming, 3 K over the air), and the reasons to turn it off that do not come from heat.
 */
final class MatTruth {
    private static final int FOUND_WITHIN = 120;

    private final Case found;
    private final Tray tray;
    private final String mat;
    private final Limits limits;
    private final List<SimulatedProbe> probes;

    private MatTruth(Case found, Tray tray, String mat) {
        this.found = found;
        this.tray = tray;
        this.mat = mat;
        limits = found.limits(tray);
        probes = found.trace().inTray(tray.id(), Quantity.TEMPERATURE);
    }

    static void judge(Case found, Tray tray) {
        String mat = tray.mat();
        if (mat == null) {
            return;
        }
        var truth = new MatTruth(found, tray, mat);
        truth.reasons();
        if (truth.probes.isEmpty()) {
            truth.noProbe();
        } else {
            truth.notHeating();
            truth.notStopping();
        }
    }

    private void reasons() {
        int end = found.trace().minutes();
        if (tray.stage() != Stage.GERMINATING) {
            may(0, end + 60, List.of(ShutOffReason.STAGE, ShutOffReason.EMERGED), "mat on after germination");
        }
        for (JournalEntry entry : found.journal(tray.id(), EntryKind.EMERGED)) {
            int at = found.trace().minuteOf(entry.time());
            var reasons = List.of(ShutOffReason.EMERGED, ShutOffReason.STAGE);
            may(at, end + 60, reasons, "emerged");
            found.must(
                    List.of(AlertKind.MAT_SHUT_OFF),
                    Where.in(tray.id()),
                    new Stretch(at, end),
                    at,
                    at + FOUND_WITHIN,
                    reasons,
                    true);
        }
        Optional<SimulatedProbe> air = found.trace().inRoom(tray.room(), Quantity.AIR_TEMPERATURE);
        air.ifPresent(probe -> Stretch.where(0, end, minute -> high(probe, minute) > limits.rootTargetLow() - 2)
                .forEach(warm -> may(
                        warm.from(),
                        warm.to() + 120,
                        List.of(ShutOffReason.ROOM_WARM),
                        "the room is nearly warm enough")));
    }

    private void may(int from, int to, List<ShutOffReason> reasons, String why) {
        found.may(List.of(AlertKind.MAT_SHUT_OFF), Where.in(tray.id()), from, to, reasons, why);
    }

    private void noProbe() {
        var reasons = List.of(ShutOffReason.NO_PROBE);
        may(0, found.trace().minutes() + 60, reasons, "no root-zone probe over the mat");
        found.must(
                List.of(AlertKind.MAT_SHUT_OFF),
                Where.in(tray.id()),
                new Stretch(0, found.trace().minutes()),
                0,
                FOUND_WITHIN,
                reasons,
                true);
    }

    private void notHeating() {
        int[] told = runLengths(true);
        for (Stretch could : Stretch.where(60, found.trace().minutes(), minute -> {
            boolean broken = told[minute] >= 30 && !found.trace().heats(mat, minute);
            boolean looks =
                    told[minute] >= 30 && change(minute, 60, true) < 0.4 && lowest(minute) < limits.rootTargetLow();
            return broken || looks || (told[minute] >= 30 && lowest(minute) < limits.rootCold() + 0.3);
        })) {
            found.may(
                    List.of(AlertKind.MAT_NOT_HEATING),
                    Where.in(tray.id()),
                    could.from(),
                    could.to() + Case.GRACE,
                    List.of(),
                    "condition holds or is within the margin");
            Stretch.where(
                            could.from(),
                            could.to(),
                            minute -> told[minute] >= 90
                                    && !found.trace().heats(mat, minute)
                                    && highest(minute) < limits.rootCold() - 0.3
                                    && change(minute, 60, true) < 0.1)
                    .stream()
                    .filter(plain -> plain.minutes() >= 60)
                    .findFirst()
                    .ifPresent(plain -> must(AlertKind.MAT_NOT_HEATING, could.from(), plain));
        }
    }

    private void notStopping() {
        SimulatedProbe air =
                found.trace().inRoom(tray.room(), Quantity.AIR_TEMPERATURE).orElseThrow();
        int[] rests = runLengths(false);
        for (Stretch could : Stretch.where(60, found.trace().minutes(), minute -> {
            boolean heating = rests[minute] >= 10 && found.trace().heats(mat, minute);
            return heating
                    || (rests[minute] >= 10
                            && highest(minute) > low(air, minute) + 2.5
                            && change(minute, 30, false) > -0.15);
        })) {
            found.may(
                    List.of(AlertKind.MAT_NOT_STOPPING),
                    Where.in(tray.id()),
                    could.from(),
                    could.to() + Case.GRACE,
                    List.of(),
                    "condition holds or is within the margin");
            Stretch.where(
                            could.from(),
                            could.to(),
                            minute -> rests[minute] >= 60
                                    && found.trace().heats(mat, minute)
                                    && lowestOfHottest(minute) > high(air, minute) + 3
                                    && change(minute, 60, false) > 0.4)
                    .stream()
                    .filter(plain -> plain.minutes() >= 40)
                    .findFirst()
                    .ifPresent(plain -> must(AlertKind.MAT_NOT_STOPPING, could.from(), plain));
        }
    }

    private void must(AlertKind kind, int earliest, Stretch plain) {
        found.must(List.of(kind), Where.in(tray.id()), plain, earliest, plain.from() + FOUND_WITHIN, List.of(), true);
    }

    /** For how many minutes it has been reporting so without a break. */
    private int[] runLengths(boolean heating) {
        var runs = new int[found.trace().minutes()];
        for (int minute = 0; minute < runs.length; minute++) {
            boolean so = found.trace().reportsHeating(mat, minute) == heating;
            runs[minute] = so ? (minute == 0 ? 0 : runs[minute - 1]) + 1 : 0;
        }
        return runs;
    }

    /** By how much the tray's probes changed over the last minutes: the most or the least of them. */
    private double change(int minute, int over, boolean most) {
        var changes = probes.stream().mapToDouble(probe -> {
            double[] values = found.trace().course(probe).truth();
            return values[minute] - values[Math.max(0, minute - over)];
        });
        return (most ? changes.max() : changes.min()).orElse(0);
    }

    private double lowest(int minute) {
        return probes.stream().mapToDouble(probe -> low(probe, minute)).min().orElse(99);
    }

    private double highest(int minute) {
        return probes.stream().mapToDouble(probe -> high(probe, minute)).max().orElse(-99);
    }

    private double lowestOfHottest(int minute) {
        return probes.stream().mapToDouble(probe -> low(probe, minute)).max().orElse(-99);
    }

    private double low(SimulatedProbe probe, int minute) {
        return found.trace().course(probe).low(minute);
    }

    private double high(SimulatedProbe probe, int minute) {
        return found.trace().course(probe).high(minute);
    }
}
