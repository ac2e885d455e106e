package traytender.ingest.nursery.truth;

import java.util.Arrays;
import java.util.List;
import traytender.config.alert.AlertKind;
import traytender.config.site.Place;
import traytender.config.site.Quantity;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.ProbeFault;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Truth.Where;

/** The probes' own troubles, with the hours by which each must be found; and what a faulty probe excuses. */
final class ProbeTruth {
    private static final List<AlertKind> OF_PROBES =
            Arrays.stream(AlertKind.values()).filter(AlertKind::isAboutProbe).toList();

    private static final int DRIFT_FOUND_WITHIN = 48 * 60;

    private ProbeTruth() {}

    static void judge(Case found) {
        for (SimulatedProbe probe : found.trace().probes()) {
            probe.faults().forEach(fault -> judge(found, probe, fault));
            if (probe.probe().measures() == Quantity.MOISTURE) {
                beyondCalibration(found, probe);
                driftsAway(found, probe);
            }
            if (probe.probe().measures() == Quantity.BATTERY) {
                battery(found, probe);
            }
        }
    }

    private static void judge(Case found, SimulatedProbe probe, ProbeFault fault) {
        int from = found.trace().minuteOf(fault.from());
        int to = Math.min(found.trace().minutes(), found.trace().minuteOf(fault.to()));
        Where where = where(found, probe);
        switch (fault.kind()) {
            case SPIKES -> {}
            case LATE -> {
                var late = List.of(AlertKind.PROBE_SILENT, AlertKind.PROBE_CLOCK);
                found.may(late, where, from, to + 150, List.of(), "late batches");
            }
            // A clock that is behind puts readings before the fault's own beginning.
            case CLOCK -> atFault(found, where, from - (int) Math.abs(fault.size() / 60), to + 120);
            default -> {
                atFault(found, where, from, to + 120);
                if (!isEverywhere(found, fault)) {
                    required(found, where, from, to, fault.kind());
                }
            }
        }
    }

    /** Nothing heard from anything may as well be a program that was off: the readings do not tell. */
    private static boolean isEverywhere(Case found, ProbeFault fault) {
        return fault.kind() == ProbeFault.Kind.SILENT
                && found.trace().probes().stream()
                        .allMatch(
                                probe -> probe.fault(fault.kind(), fault.from()).isPresent());
    }

    private static void atFault(Case found, Where where, int from, int to) {
        found.may(OF_PROBES, where, from, to, List.of(), "a probe at fault");
        found.may(List.of(), where, from, to, List.of(), "rests on a probe at fault");
    }

    private static void required(Case found, Where where, int from, int to, ProbeFault.Kind kind) {
        switch (kind) {
            case SILENT -> must(found, where, from, to, 200, true, AlertKind.PROBE_SILENT);
            case STUCK -> must(found, where, from, to, 14 * 60, true, AlertKind.PROBE_STUCK, AlertKind.PROBE_ODD);
            case LIFTED, SHIFTED ->
                must(
                        found,
                        where,
                        from,
                        to,
                        6 * 60,
                        false,
                        AlertKind.PROBE_ODD,
                        AlertKind.PROBE_RANGE,
                        AlertKind.PROBE_JUMPING);
            case JUMPING ->
                must(
                        found,
                        where,
                        from,
                        to,
                        3 * 60,
                        true,
                        AlertKind.PROBE_JUMPING,
                        AlertKind.PROBE_RANGE,
                        AlertKind.PROBE_ODD);
            case RANGE ->
                must(
                        found,
                        where,
                        from,
                        to,
                        3 * 60,
                        true,
                        AlertKind.PROBE_RANGE,
                        AlertKind.PROBE_ODD,
                        AlertKind.PROBE_JUMPING,
                        AlertKind.PROBE_STUCK);
            default -> {}
        }
    }

    /** A probe that reads 15 points off for two days is to be told; from 5 points off it may be. */
    private static void driftsAway(Case found, SimulatedProbe probe) {
        var course = found.trace().course(probe);
        for (Stretch off : Stretch.where(0, found.trace().minutes(), minute -> course.off(minute) > 0.05)) {
            Where where = where(found, probe);
            atFault(found, where, off.from(), off.to() + 120);
            Stretch.where(off.from(), off.to(), minute -> course.off(minute) > 0.15).stream()
                    .filter(far -> far.minutes() > DRIFT_FOUND_WITHIN)
                    .findFirst()
                    .ifPresent(far -> must(
                            found,
                            where,
                            far.from(),
                            far.to(),
                            DRIFT_FOUND_WITHIN,
                            false,
                            AlertKind.PROBE_ODD,
                            AlertKind.PROBE_RANGE));
        }
    }

    /** Below a tenth it is to be told within three hours, below three tenths it may be. */
    private static void battery(Case found, SimulatedProbe probe) {
        var course = found.trace().course(probe);
        var low = List.of(AlertKind.BATTERY_LOW);
        var where = new Where(where(found, probe).places(), List.of());
        for (Stretch could : Stretch.where(0, found.trace().minutes(), minute -> course.seen()[minute] < 30)) {
            found.may(low, where, could.from(), could.to() + 30, List.of(), "battery fairly low");
            Stretch.where(could.from(), could.to(), minute -> course.seen()[minute] < 10).stream()
                    .findFirst()
                    .ifPresent(
                            plain -> found.must(low, where, plain, could.from(), plain.from() + 180, List.of(), false));
        }
    }

    private static void must(
            Case found, Where where, int from, int to, int within, boolean contract, AlertKind... kinds) {
        if (to - from > within) {
            found.must(List.of(kinds), where, new Stretch(from, to), from, from + within, List.of(), contract);
        }
    }

    /** Above its wet count or below its dry one a probe is clamped: whether that is worth a word is open. */
    private static void beyondCalibration(Case found, SimulatedProbe probe) {
        var course = found.trace().course(probe);
        Stretch.where(0, found.trace().minutes(), minute -> course.high(minute) > 1 || course.low(minute) < 0.02)
                .forEach(beyond -> found.may(
                        List.of(AlertKind.PROBE_RANGE),
                        where(found, probe),
                        beyond.from(),
                        beyond.to() + 30,
                        List.of(),
                        "beyond what the calibration reaches"));
    }

    private static Where where(Case found, SimulatedProbe probe) {
        Place place = probe.probe().at().last();
        if (place instanceof Place.InCell in) {
            Tray tray = found.folder().site().tray(in.tray()).orElseThrow();
            return Where.in(in.tray(), found.zone(probe, tray), Zone.TRAY);
        }
        if (place instanceof Place.InRoom in) {
            return new Where(List.of("room:" + in.room()), List.of());
        }
        if (place instanceof Place.AtTray at) {
            return Where.in(at.tray());
        }
        String mat = place instanceof Place.AtMat at ? at.mat() : "";
        return new Where(
                found.folder().site().trays().stream()
                        .filter(tray -> mat.equals(tray.mat()))
                        .map(tray -> "tray:" + tray.id())
                        .toList(),
                List.of());
    }
}
