package traytender.config.site;

import java.util.ArrayList;
import java.util.List;

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

    /** Every cell of a tray. */
    public static CellBlock whole(Cells cells) {
        return new CellBlock(1, cells.rows(), 1, cells.columns());
    }

    /** Where these cells lie once their tray is turned half round. */
    public CellBlock turned(Cells cells) {
        int rows = cells.rows() + 1;
        int columns = cells.columns() + 1;
        return new CellBlock(rows - lastRow, rows - firstRow, columns - lastColumn, columns - firstColumn);
    }

    /** The cells that both blocks share; none or one block. */
    public List<CellBlock> common(CellBlock other) {
        return overlaps(other)
                ? List.of(new CellBlock(
                        Math.max(firstRow, other.firstRow),
                        Math.min(lastRow, other.lastRow),
                        Math.max(firstColumn, other.firstColumn),
                        Math.min(lastColumn, other.lastColumn)))
                : List.of();
    }

    /** The cells of this block that the other does not hold, as at most four blocks. */
    public List<CellBlock> without(CellBlock other) {
        if (!overlaps(other)) {
            return List.of(this);
        }
        CellBlock shared = common(other).get(0);
        var rest = new ArrayList<CellBlock>();
        add(rest, firstRow, shared.firstRow - 1, firstColumn, lastColumn);
        add(rest, shared.lastRow + 1, lastRow, firstColumn, lastColumn);
        add(rest, shared.firstRow, shared.lastRow, firstColumn, shared.firstColumn - 1);
        add(rest, shared.firstRow, shared.lastRow, shared.lastColumn + 1, lastColumn);
        return rest;
    }

    private static void add(List<CellBlock> blocks, int firstRow, int lastRow, int firstColumn, int lastColumn) {
        if (firstRow <= lastRow && firstColumn <= lastColumn) {
            blocks.add(new CellBlock(firstRow, lastRow, firstColumn, lastColumn));
        }
    }
}
