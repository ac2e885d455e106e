package traytender.ingest.nursery.truth;

import java.util.List;
import java.util.function.Predicate;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.crop.Limits;
import traytender.config.site.Quantity;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Truth.Where;

/** {@code centre-overheating}, {@code mat-shut-off} for {@code too-hot}, {@code uneven-heat} and {@code root-cold}. */
final class RootTruth {
    private static final double MARGIN = 0.3;
    private static final double SPREAD_MARGIN = 0.4;

    private final Case found;
    private final Tray tray;
    private final Limits limits;
    private final List<SimulatedProbe> probes;
    private final int hold;

    private RootTruth(Case found, Tray tray) {
        this.found = found;
        this.tray = tray;
        limits = found.limits(tray);
        probes = found.trace().inTray(tray.id(), Quantity.TEMPERATURE);
        hold = (int) limits.lastingMinutes();
    }

    static void judge(Case found, Tray tray) {
        var truth = new RootTruth(found, tray);
        if (truth.probes.isEmpty()) {
            return;
        }
        truth.probes.forEach(truth::hot);
        truth.shutOff();
        truth.cold();
        truth.spread();
    }

    /** Only the hottest zone is required; which it is, must be plain. */
    private void hot(SimulatedProbe probe) {
        found.lasting(
                AlertKind.CENTRE_OVERHEATING,
                Where.in(tray.id(), found.zone(probe, tray)),
                List.of(),
                minute -> high(probe, minute) >= limits.rootHot() - MARGIN,
                minute -> low(probe, minute) >= limits.rootHot() + MARGIN && isHottest(probe, minute),
                hold,
                0,
                true);
    }

    private boolean isHottest(SimulatedProbe probe, int minute) {
        return probes.stream()
                .allMatch(other -> other.equals(probe) || low(probe, minute) > high(other, minute) + SPREAD_MARGIN);
    }

    private void shutOff() {
        found.lasting(
                AlertKind.MAT_SHUT_OFF,
                Where.in(tray.id()),
                List.of(ShutOffReason.TOO_HOT),
                minute -> most(minute, true) >= limits.rootShutOff() - MARGIN,
                minute -> most(minute, false) >= limits.rootShutOff() + MARGIN,
                hold,
                0,
                tray.mat() != null);
    }

    private void cold() {
        found.lasting(
                AlertKind.ROOT_COLD,
                Where.in(tray.id()),
                List.of(),
                minute -> probes.stream().anyMatch(probe -> low(probe, minute) < limits.rootCold() + MARGIN),
                minute -> probes.stream().allMatch(probe -> high(probe, minute) < limits.rootCold() - MARGIN),
                hold,
                0,
                true);
    }

    /** Centre over the warmest edge is certain, over the coldest border possible. */
    private void spread() {
        List<SimulatedProbe> centre = at(zone -> zone == Zone.CENTRE);
        List<SimulatedProbe> edges = at(Zone::isEdge);
        List<SimulatedProbe> border = at(zone -> zone.isEdge() || zone.isCorner());
        if (centre.isEmpty() || border.isEmpty()) {
            return;
        }
        SimulatedProbe middle = centre.get(0);
        found.lasting(
                AlertKind.UNEVEN_HEAT,
                Where.in(tray.id()),
                List.of(),
                minute -> high(middle, minute)
                                - border.stream()
                                        .mapToDouble(edge -> low(edge, minute))
                                        .min()
                                        .orElse(99)
                        > limits.rootSpread() - SPREAD_MARGIN,
                minute -> low(middle, minute)
                                - edges.stream()
                                        .mapToDouble(edge -> high(edge, minute))
                                        .max()
                                        .orElse(99)
                        > limits.rootSpread() + SPREAD_MARGIN,
                hold,
                0,
                true);
    }

    private List<SimulatedProbe> at(Predicate<Zone> where) {
        return probes.stream()
                .filter(probe -> where.test(found.zone(probe, tray)))
                .toList();
    }

    private double most(int minute, boolean possible) {
        return probes.stream()
                .mapToDouble(probe -> possible ? high(probe, minute) : low(probe, minute))
                .max()
                .orElse(-99);
    }

    private double low(SimulatedProbe probe, int minute) {
        return found.trace().course(probe).low(minute);
    }

    private double high(SimulatedProbe probe, int minute) {
        return found.trace().course(probe).high(minute);
    }
}
