package traytender.config.site;

/**
 * A rectangle of cells, all bounds inclusive and counted from 1.
 */
public record CellBlock(int firstRow, int lastRow, int firstColumn, int lastColumn) {
    public CellBlock {
        if (firstRow < 1 || lastRow < firstRow || firstColumn < 1 || lastColumn < firstColumn) {
            throw new IllegalArgumentException("rows " + firstRow + "-" + lastRow + ", columns " + firstColumn + "-"
                    + lastColumn + " are no block");
        }
    }

    /** Whether the cell lies in this block. */
    public boolean contains(Cell cell) {
        return cell.row() >= firstRow
                && cell.row() <= lastRow
                && cell.column() >= firstColumn
                && cell.column() <= lastColumn;
    }

    /** Whether the two blocks share a cell. */
    public boolean overlaps(CellBlock other) {
        return firstRow <= other.lastRow
                && other.firstRow <= lastRow
                && firstColumn <= other.lastColumn
                && other.firstColumn <= lastColumn;
    }

    /** Distance from a cell to the nearest cell of this block, in cell widths; 0 inside. */
    public double distanceTo(Cell cell) {
        int rows = Math.max(0, Math.max(firstRow - cell.row(), cell.row() - lastRow));
        int columns = Math.max(0, Math.max(firstColumn - cell.column(), cell.column() - lastColumn));
        return Math.hypot(rows, columns);
    }

    /** How many cells the block holds. */
    public int count() {
        return (lastRow - firstRow + 1) * (lastColumn - firstColumn + 1);
    }
}
