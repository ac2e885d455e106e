package traytender.rules.cells;

import traytender.config.site.Cell;
import traytender.config.site.Cells;

/**
 * How alike two cells of a tray are: the covariance of their levels, before any probe has spoken. A sum of four parts, each of
 * which is a covariance of its own, so that the sum is one too.
 *
 * <ul>
 *   <li>what the whole tray has in common (it was watered, the room is dry);
 *   <li>what neighbours have in common, falling off with their distance;
 *   <li>what border cells have in common: they lose water to two sides;
 *   <li>over a mat, what cells share by how far inside its footprint they lie: the middle dries from below.
 * </ul>
 *
 * Standard deviations are for moisture; our choice, no source gives any. For another quantity they are scaled as a whole.
 */
final class CellLikeness {
    private static final double TRAY = 0.20;
    private static final double NEIGHBOUR = 0.035;
    private static final double BORDER = 0.04;
    private static final double MAT = 0.06;
    /** In cell widths. */
    private static final double REACH = 4;

    private static final double BORDER_DEPTH = 1.2;

    private final Cells cells;
    private final boolean mat;
    private final double scale;

    CellLikeness(Cells cells, boolean mat, double scale) {
        this.cells = cells;
        this.mat = mat;
        this.scale = scale;
    }

    double between(Cell a, Cell b) {
        double near = NEIGHBOUR * NEIGHBOUR * Math.exp(-a.distanceTo(b) / REACH);
        double border = BORDER * BORDER * border(a) * border(b);
        double heat = mat ? MAT * MAT * inside(a) * inside(b) : 0;
        return scale * scale * (TRAY * TRAY + near + border + heat);
    }

    /** 1 at the border, towards 0 inside. */
    private double border(Cell cell) {
        return Math.exp(-depth(cell) / BORDER_DEPTH);
    }

    /** 0 at the border, 1 in the very middle. */
    private double inside(Cell cell) {
        double rows = Math.min(cell.row() - 0.5, cells.rows() - cell.row() + 0.5) / (cells.rows() / 2.0);
        double columns = Math.min(cell.column() - 0.5, cells.columns() - cell.column() + 0.5) / (cells.columns() / 2.0);
        return Math.sqrt(Math.max(0, Math.min(1, rows)) * Math.max(0, Math.min(1, columns)));
    }

    private int depth(Cell cell) {
        int row = Math.min(cell.row() - 1, cells.rows() - cell.row());
        int column = Math.min(cell.column() - 1, cells.columns() - cell.column());
        return Math.min(row, column);
    }
}
