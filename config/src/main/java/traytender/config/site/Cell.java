package traytender.config.site;

/**
 * One cell of a tray.
 *
 * @param row counted from the front, from 1
 * @param column counted from the left, from 1
 */
public record Cell(int row, int column) {
    public Cell {
        if (row < 1 || column < 1) {
            throw new IllegalArgumentException("cell " + row + "," + column + " starts below 1");
        }
    }

    /** Distance to another cell in cell widths, along the straight line. */
    public double distanceTo(Cell other) {
        return Math.hypot(row - other.row, column - other.column);
    }

    /** Where this cell lies once its tray is turned half round. */
    public Cell turned(Cells cells) {
        return new Cell(cells.rows() + 1 - row, cells.columns() + 1 - column);
    }
}
