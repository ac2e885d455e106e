package traytender.config.site;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * A part of a tray, derived from a cell's distances to the borders, counted in cells from 0.
 *
 * <p>Corner: at most 1 from one row border and at most 1 from one column border. Edge: not a corner and 0 from a
 * border. Centre: at least a quarter of the tray from every border. Between: the rest. {@link #TRAY} is the whole tray.
 */
public enum Zone {
    CENTRE,
    BETWEEN,
    EDGE_FRONT,
    EDGE_BACK,
    EDGE_LEFT,
    EDGE_RIGHT,
    CORNER_FRONT_LEFT,
    CORNER_FRONT_RIGHT,
    CORNER_BACK_LEFT,
    CORNER_BACK_RIGHT,
    TRAY;

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

    /** The word used in files, messages and addresses, for example {@code corner-back-right}. */
    public String word() {
        return word;
    }

    /** The zone as a grower says it, for example {@code back right corner}. */
    public String spoken() {
        return switch (this) {
            case CENTRE -> "centre";
            case BETWEEN -> "part between centre and edge";
            case EDGE_FRONT, EDGE_BACK, EDGE_LEFT, EDGE_RIGHT -> word.substring(5) + " edge";
            case CORNER_FRONT_LEFT, CORNER_FRONT_RIGHT, CORNER_BACK_LEFT, CORNER_BACK_RIGHT ->
                word.substring(7).replace('-', ' ') + " corner";
            case TRAY -> "tray";
        };
    }

    /** Whether this is one of the four corners. */
    public boolean isCorner() {
        return word.startsWith("corner");
    }

    /** Whether this is one of the four edges. */
    public boolean isEdge() {
        return word.startsWith("edge");
    }

    /** The zone of that word, if there is one. */
    public static Optional<Zone> ofWord(String word) {
        return Arrays.stream(values()).filter(zone -> zone.word.equals(word)).findFirst();
    }

    /**
     * The zone a cell lies in; never {@link #TRAY}. A cell that is 0 from two opposite borders (a tray of one row) counts
     * as the nearer hand's: front before back, left before right.
     *
     * @throws IllegalArgumentException when the cell lies outside the tray
     */
    public static Zone of(Cell cell, Cells cells) {
        if (!cells.contains(cell)) {
            throw new IllegalArgumentException("cell " + cell + " outside " + cells);
        }
        int front = cell.row() - 1;
        int back = cells.rows() - cell.row();
        int left = cell.column() - 1;
        int right = cells.columns() - cell.column();
        if (Math.min(front, back) <= 1 && Math.min(left, right) <= 1) {
            return corner(front <= back, left <= right);
        }
        if (Math.min(front, back) == 0) {
            return front <= back ? EDGE_FRONT : EDGE_BACK;
        }
        if (Math.min(left, right) == 0) {
            return left <= right ? EDGE_LEFT : EDGE_RIGHT;
        }
        boolean deep = 4 * Math.min(front, back) >= cells.rows() && 4 * Math.min(left, right) >= cells.columns();
        return deep ? CENTRE : BETWEEN;
    }

    private static Zone corner(boolean front, boolean left) {
        if (front) {
            return left ? CORNER_FRONT_LEFT : CORNER_FRONT_RIGHT;
        }
        return left ? CORNER_BACK_LEFT : CORNER_BACK_RIGHT;
    }
}
