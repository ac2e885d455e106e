package traytender.config.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.EnumMap;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ZoneTest {
    private static Map<Zone, Integer> count(Cells cells) {
        var counts = new EnumMap<Zone, Integer>(Zone.class);
        for (int row = 1; row <= cells.rows(); row++) {
            for (int column = 1; column <= cells.columns(); column++) {
                counts.merge(Zone.of(new Cell(row, column), cells), 1, Integer::sum);
            }
        }
        return counts;
    }

    /** Counted by hand on squared paper from the definition: corners of 2 x 2, edges without them, rows 3-6 of columns 5-12. */
    @Test
    void trayOf8By16_hasTheZonesCountedByHand() {
        assertThat(count(new Cells(8, 16)))
                .containsOnly(
                        Map.entry(Zone.CENTRE, 32),
                        Map.entry(Zone.BETWEEN, 48),
                        Map.entry(Zone.EDGE_FRONT, 12),
                        Map.entry(Zone.EDGE_BACK, 12),
                        Map.entry(Zone.EDGE_LEFT, 4),
                        Map.entry(Zone.EDGE_RIGHT, 4),
                        Map.entry(Zone.CORNER_FRONT_LEFT, 4),
                        Map.entry(Zone.CORNER_FRONT_RIGHT, 4),
                        Map.entry(Zone.CORNER_BACK_LEFT, 4),
                        Map.entry(Zone.CORNER_BACK_RIGHT, 4));
    }

    /** By hand: a quarter of 6 is 1.5 and of 12 is 3, so the centre is rows 3-4 of columns 4-9. */
    @Test
    void trayOf6By12_hasTheZonesCountedByHand() {
        assertThat(count(new Cells(6, 12))).contains(Map.entry(Zone.CENTRE, 12), Map.entry(Zone.EDGE_LEFT, 2));
    }

    @ParameterizedTest
    @CsvSource({
        "1, 1, CORNER_FRONT_LEFT",
        "2, 2, CORNER_FRONT_LEFT",
        "8, 1, CORNER_BACK_LEFT",
        "7, 15, CORNER_BACK_RIGHT",
        "1, 16, CORNER_FRONT_RIGHT",
        "1, 3, EDGE_FRONT",
        "8, 8, EDGE_BACK",
        "3, 1, EDGE_LEFT",
        "6, 16, EDGE_RIGHT",
        "2, 3, BETWEEN",
        "4, 4, BETWEEN",
        "3, 5, CENTRE",
        "6, 12, CENTRE"
    })
    void cell_liesInItsZone(int row, int column, Zone zone) {
        assertThat(Zone.of(new Cell(row, column), new Cells(8, 16))).isEqualTo(zone);
    }

    @Test
    void cellOutside_isRefused() {
        assertThatThrownBy(() -> Zone.of(new Cell(9, 1), new Cells(8, 16)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("outside");
    }

    /** The definition written again, from the distances, without the order of the branches. */
    @Property(seed = "20260314")
    void everyCell_hasOneZoneByItsDistances(
            @ForAll @IntRange(min = 1, max = 100) int rows,
            @ForAll @IntRange(min = 1, max = 100) int columns,
            @ForAll @IntRange(min = 0, max = 99) int anyRow,
            @ForAll @IntRange(min = 0, max = 99) int anyColumn) {
        int row = anyRow % rows;
        int column = anyColumn % columns;
        int byRow = Math.min(row, rows - 1 - row);
        int byColumn = Math.min(column, columns - 1 - column);
        boolean corner = byRow <= 1 && byColumn <= 1;
        boolean edge = !corner && (byRow == 0 || byColumn == 0);
        boolean centre = !corner && !edge && byRow >= rows / 4.0 && byColumn >= columns / 4.0;

        Zone zone = Zone.of(new Cell(row + 1, column + 1), new Cells(rows, columns));

        assertThat(zone.isCorner()).isEqualTo(corner);
        assertThat(zone.isEdge()).isEqualTo(edge);
        assertThat(zone == Zone.CENTRE).isEqualTo(centre);
        assertThat(zone == Zone.BETWEEN).isEqualTo(!corner && !edge && !centre);
    }

    @Property(seed = "20260314")
    void turnedCell_liesInTheOppositeZone(
            @ForAll @IntRange(min = 2, max = 40) int rows,
            @ForAll @IntRange(min = 2, max = 40) int columns,
            @ForAll @IntRange(min = 0, max = 39) int row,
            @ForAll @IntRange(min = 0, max = 39) int column) {
        // In a tray of three rows or columns the middle one is as near to both borders: no opposite to speak of.
        if (rows % 2 == 1 || columns % 2 == 1) {
            return;
        }
        var cells = new Cells(rows, columns);
        var cell = new Cell(row % rows + 1, column % columns + 1);

        assertThat(Zone.of(cell.turned(cells), cells)).isEqualTo(opposite(Zone.of(cell, cells)));
        assertThat(cell.turned(cells).turned(cells)).isEqualTo(cell);
    }

    private static Zone opposite(Zone zone) {
        return switch (zone) {
            case EDGE_FRONT -> Zone.EDGE_BACK;
            case EDGE_BACK -> Zone.EDGE_FRONT;
            case EDGE_LEFT -> Zone.EDGE_RIGHT;
            case EDGE_RIGHT -> Zone.EDGE_LEFT;
            case CORNER_FRONT_LEFT -> Zone.CORNER_BACK_RIGHT;
            case CORNER_FRONT_RIGHT -> Zone.CORNER_BACK_LEFT;
            case CORNER_BACK_LEFT -> Zone.CORNER_FRONT_RIGHT;
            case CORNER_BACK_RIGHT -> Zone.CORNER_FRONT_LEFT;
            case CENTRE, BETWEEN, TRAY -> zone;
        };
    }

    @Property(seed = "20260314")
    void blockWithout_keepsEveryOtherCellOnce(
            @ForAll @IntRange(min = 1, max = 6) int a,
            @ForAll @IntRange(min = 1, max = 6) int b,
            @ForAll @IntRange(min = 1, max = 6) int c,
            @ForAll @IntRange(min = 1, max = 6) int d,
            @ForAll @IntRange(min = 1, max = 6) int e,
            @ForAll @IntRange(min = 1, max = 6) int f) {
        var block = new CellBlock(Math.min(a, b), Math.max(a, b), 2, 5);
        var taken = new CellBlock(Math.min(c, d), Math.max(c, d), Math.min(e, f), Math.max(e, f));

        var rest = block.without(taken);

        for (int row = 1; row <= 7; row++) {
            for (int column = 1; column <= 7; column++) {
                var cell = new Cell(row, column);
                long holding = rest.stream().filter(part -> part.contains(cell)).count();
                assertThat(holding).isEqualTo(block.contains(cell) && !taken.contains(cell) ? 1 : 0);
            }
        }
    }
}
