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

    private ProbeTruth() {}

    static void judge(Case found) {
        for (SimulatedProbe probe : found.trace().probes()) {
            probe.faults().forEach(fault -> judge(found, probe, fault));
            if (probe.probe().measures() == Quantity.MOISTURE) {
                beyondCalibration(found, probe);
            }
        }
    }

    private static void judge(Case found, SimulatedProbe probe, ProbeFault fault) {
        int from = found.trace().minuteOf(fault.from());
        int to = Math.min(found.trace().minutes(), found.trace().minuteOf(fault.to()));
        Where where = where(found, probe);
        found.may(OF_PROBES, where, from, to + 120, List.of(), "a probe at fault");
        found.may(List.of(), where, from, to + 120, List.of(), "rests on a probe at fault");
        switch (fault.kind()) {
            case SILENT -> must(found, where, from, to, 200, true, AlertKind.PROBE_SILENT);
            case STUCK -> must(found, where, from, to, 14 * 60, true, AlertKind.PROBE_STUCK, AlertKind.PROBE_ODD);
            case LIFTED ->
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
        return place instanceof Place.InRoom in ? new Where(List.of("room:" + in.room()), List.of()) : Where.in("none");
    }
}
