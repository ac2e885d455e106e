package traytender.config.site;

/**
 * The size of a plug tray in cells. Row 1 is at the grower's side of the bench (front), column 1 at the left hand.
 *
 * @param rows rows of cells, 1 to 100
 * @param columns columns of cells, 1 to 100
 */
public record Cells(int rows, int columns) {
    public static final int MOST = 100;

    public Cells {
        if (rows < 1 || rows > MOST || columns < 1 || columns > MOST) {
            throw new IllegalArgumentException("cells " + rows + " x " + columns + " outside 1.." + MOST);
        }
    }

    /** How many cells the tray has. */
    public int count() {
        return rows * columns;
    }

    /** Whether the cell lies in this tray. */
    public boolean contains(Cell cell) {
        return cell.row() <= rows && cell.column() <= columns;
    }
}
