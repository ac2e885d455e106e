package traytender.rules.cells;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Zone;
import traytender.rules.view.CellEstimate;

/**
 * The level of every cell of a tray from few probes: a Gaussian process (simple kriging; Rasmussen and Williams 2006, equations
 * 2.25 and 2.26) about the probes' mean. Smooth, pinned at the probes within their doubt, less sure the less a cell is like a
 * probed one. Immutable.
 */
public final class CellField {
    private final Cells cells;
    private final CellLikeness likeness;
    private final List<ProbeLevel> probes;
    private final double mean;
    private final RealMatrix inverse;
    private final double[] weights;

    private CellField(Cells cells, boolean mat, double scale, List<ProbeLevel> probes) {
        this.cells = cells;
        this.likeness = new CellLikeness(cells, mat, scale);
        this.probes = List.copyOf(probes);
        this.mean = probes.stream().mapToDouble(ProbeLevel::level).average().orElse(Double.NaN);
        int n = probes.size();
        if (n == 0) {
            this.inverse = new Array2DRowRealMatrix(1, 1);
            this.weights = new double[0];
            return;
        }
        var covariance = new Array2DRowRealMatrix(n, n);
        double[] off = new double[n];
        for (int i = 0; i < n; i++) {
            ProbeLevel probe = probes.get(i);
            off[i] = probe.level() - mean;
            for (int j = 0; j < n; j++) {
                double same = i == j ? probe.spread() * probe.spread() : 0;
                covariance.setEntry(
                        i, j, likeness.between(probe.cell(), probes.get(j).cell()) + same);
            }
        }
        this.inverse =
                new CholeskyDecomposition(covariance, 1e-9, 0).getSolver().getInverse();
        this.weights = inverse.operate(off);
    }

    /**
     * The moisture of a tray.
     *
     * @param mat whether a mat lies under it
     * @param probes those that can be believed; several in one cell are fine
     */
    public static CellField moisture(Cells cells, boolean mat, List<ProbeLevel> probes) {
        return new CellField(cells, mat, 1, probes);
    }

    /** The root-zone temperature of a tray, C; differs about {@code 50} times as much as moisture does (our choice). */
    public static CellField temperature(Cells cells, boolean mat, List<ProbeLevel> probes) {
        return new CellField(cells, mat, 50, probes);
    }

    /** Every cell, by row, then column; NaN without a probe. */
    public List<CellEstimate> estimates() {
        var all = new ArrayList<CellEstimate>(cells.count());
        eachCell(cell -> all.add(estimate(cell)));
        return all;
    }

    /** One cell. */
    public CellEstimate estimate(Cell cell) {
        Zone zone = Zone.of(cell, cells);
        if (probes.isEmpty()) {
            return new CellEstimate(cell, zone, Double.NaN, Double.NaN);
        }
        double[] to = toProbes(cell);
        double level = mean;
        for (int i = 0; i < to.length; i++) {
            level += to[i] * weights[i];
        }
        return new CellEstimate(cell, zone, level, Math.sqrt(Math.max(0, covariance(cell, to, cell, to))));
    }

    /**
     * What each probe's cell would be taken for without that probe, less what it says: the error of the estimate where it can be
     * checked (Rasmussen and Williams 2006, equation 5.12, about the mean of the others). Empty with fewer than two probes.
     */
    public List<Double> leaveOneOutErrors() {
        if (probes.size() < 2) {
            return List.of();
        }
        var errors = new ArrayList<Double>();
        for (int i = 0; i < probes.size(); i++) {
            double meanOfOthersLess = (probes.get(i).level() - mean) / (probes.size() - 1);
            double row = Arrays.stream(inverse.getRow(i)).sum();
            errors.add(-(weights[i] + meanOfOthersLess * row) / inverse.getEntry(i, i));
        }
        return errors;
    }

    /**
     * The cell where one more probe, like the ones there are, would take most doubt from the whole tray; empty without a probe.
     */
    public Optional<Cell> bestNextCell() {
        if (probes.isEmpty()) {
            return Optional.empty();
        }
        List<Cell> all = new ArrayList<>();
        List<double[]> to = new ArrayList<>();
        eachCell(cell -> {
            all.add(cell);
            to.add(toProbes(cell));
        });
        double noise = probes.stream().mapToDouble(ProbeLevel::spread).average().orElse(0);
        Cell best = null;
        double most = 0;
        for (int i = 0; i < all.size(); i++) {
            double taken = 0;
            for (int j = 0; j < all.size(); j++) {
                double shared = covariance(all.get(i), to.get(i), all.get(j), to.get(j));
                taken += shared * shared;
            }
            taken /= covariance(all.get(i), to.get(i), all.get(i), to.get(i)) + noise * noise;
            if (taken > most) {
                most = taken;
                best = all.get(i);
            }
        }
        return Optional.ofNullable(best);
    }

    /** Covariance of two cells once the probes have spoken. */
    private double covariance(Cell a, double[] toA, Cell b, double[] toB) {
        double known = 0;
        double[] row = inverse.operate(toB);
        for (int i = 0; i < toA.length; i++) {
            known += toA[i] * row[i];
        }
        return likeness.between(a, b) - known;
    }

    private double[] toProbes(Cell cell) {
        double[] to = new double[probes.size()];
        for (int i = 0; i < to.length; i++) {
            to[i] = likeness.between(cell, probes.get(i).cell());
        }
        return to;
    }

    private void eachCell(java.util.function.Consumer<Cell> take) {
        for (int row = 1; row <= cells.rows(); row++) {
            for (int column = 1; column <= cells.columns(); column++) {
                take.accept(new Cell(row, column));
            }
        }
    }
}
