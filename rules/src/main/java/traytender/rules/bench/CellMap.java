package traytender.rules.bench;

import java.util.ArrayList;
import java.util.List;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Zone;
import traytender.rules.view.CellEstimate;

/**
 * The moisture of every cell from few probes: the mean of the probes, each weighted by the inverse square of its distance, pinned
 * at the probes; the spread grows with the distance to the nearest one. Distances are ours to choose.
 */
final class CellMap {
    /** Moisture by which cells a few widths apart differ; our choice. */
    private static final double PER_SQUARE_ROOT_CELL = 0.03;

    private static final double AT_PROBE = 0.015;

    private CellMap() {}

    static List<CellEstimate> estimate(Cells cells, List<MoistureSpot> spots, long nowMs, long listenedMinutes) {
        List<MoistureSpot> good = spots.stream()
                .filter(spot -> spot.cell != null && spot.isTrusted(nowMs, listenedMinutes))
                .toList();
        var estimates = new ArrayList<CellEstimate>(cells.count());
        for (int row = 1; row <= cells.rows(); row++) {
            for (int column = 1; column <= cells.columns(); column++) {
                estimates.add(estimate(new Cell(row, column), cells, good));
            }
        }
        return estimates;
    }

    private static CellEstimate estimate(Cell cell, Cells cells, List<MoistureSpot> spots) {
        Zone zone = Zone.of(cell, cells);
        double sum = 0;
        double weights = 0;
        double nearest = Double.POSITIVE_INFINITY;
        for (MoistureSpot spot : spots) {
            Cell at = spot.cell == null ? cell : spot.cell;
            double distance = at.distanceTo(cell);
            double alike = spot.zone == zone ? 1 : 0.5;
            double weight = alike / (0.05 + distance * distance);
            sum += weight * spot.level();
            weights += weight;
            nearest = Math.min(nearest, distance);
        }
        if (weights == 0) {
            return new CellEstimate(cell, zone, Double.NaN, Double.NaN);
        }
        return new CellEstimate(
                cell, zone, sum / weights, Math.hypot(AT_PROBE, PER_SQUARE_ROOT_CELL * Math.sqrt(nearest)));
    }
}
