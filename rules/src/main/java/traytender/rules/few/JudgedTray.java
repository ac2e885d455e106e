package traytender.rules.few;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.stat.StatUtils;
import traytender.rules.view.CellEstimate;
import traytender.rules.view.TrayView;
import traytender.rules.view.ZoneView;

/**
 * A tray without a probe, judged from a like one. The level is the other's driest; the doubt is wider, as
 *
 * <pre>spread² = other's spread² + between² + (apart · (1 − level))²</pre>
 *
 * where <i>between</i> is how far like trays lie apart after one watering: {@value #BETWEEN}, or the standard deviation among the like
 * trays with probes where that is more; and <i>apart</i>, {@value #APART}, how far their losses since then differ, as a share of the
 * loss. Both numbers are our choice; common practice, no source.
 *
 * @param tray without a probe of its own
 * @param from the tray it is judged from
 * @param moisture of its driest part, as a fraction of container capacity
 * @param spread standard deviation of {@code moisture}
 * @param dryLine what that part is held to
 * @param cells its cells as the other tray's are, with the wider doubt
 */
public record JudgedTray(
        String tray, String from, double moisture, double spread, double dryLine, List<CellEstimate> cells) {
    private static final double BETWEEN = 0.06;
    private static final double APART = 0.15;
    /** Waterings of two trays nearer than this are one round with the can; our choice. */
    private static final Duration ONE_ROUND = Duration.ofHours(2);

    public JudgedTray {
        cells = List.copyOf(cells);
    }

    /** Whether nothing tells that the two were watered at different times; what nobody wrote down is taken as watered together. */
    static boolean isWateredWith(TrayView tray, TrayView other) {
        if (tray.lastWatered() == null || other.lastWatered() == null) {
            return tray.lastWatered() == null;
        }
        Duration apart =
                Duration.between(tray.lastWatered(), other.lastWatered()).abs();
        return apart.compareTo(ONE_ROUND) <= 0;
    }

    /** @param speakers like trays with probes, the nearest first */
    static Optional<JudgedTray> of(TrayView tray, List<TrayView> speakers) {
        if (speakers.isEmpty()) {
            return Optional.empty();
        }
        TrayView from = speakers.get(0);
        ZoneView zone = driest(from);
        double between = between(speakers);
        List<CellEstimate> cells = from.estimates().stream()
                .map(cell -> new CellEstimate(
                        cell.cell(),
                        cell.zone(),
                        cell.moisture(),
                        Double.isNaN(cell.moisture()) ? Double.NaN : wider(cell.moisture(), cell.spread(), between)))
                .toList();
        return Optional.of(new JudgedTray(
                tray.id(),
                from.id(),
                zone.moisture(),
                wider(zone.moisture(), zone.spread(), between),
                zone.dryLine(),
                cells));
    }

    private static double wider(double level, double spread, double between) {
        double apart = APART * Math.max(0, 1 - level);
        return Math.sqrt(spread * spread + between * between + apart * apart);
    }

    private static double between(List<TrayView> speakers) {
        double[] levels =
                speakers.stream().mapToDouble(one -> driest(one).moisture()).toArray();
        return levels.length < 2 ? BETWEEN : Math.max(BETWEEN, Math.sqrt(StatUtils.variance(levels)));
    }

    private static ZoneView driest(TrayView tray) {
        return tray.zones().stream()
                .filter(Coverage::tells)
                .min((one, other) -> Double.compare(one.moisture(), other.moisture()))
                .orElseThrow();
    }
}
