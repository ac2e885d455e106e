package traytender.ingest.nursery.scenario;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Stage;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Zone;
import traytender.ingest.nursery.world.TrayTraits;

/** A tray of a scenario being drawn. <b>Not thread-safe.</b> */
final class DraftTray {
    final String id;
    final Cells cells;
    String room;

    @Nullable
    String mat;

    String crop = "tomato";
    /** What grows in the back half; null when all is one crop. */
    @Nullable
    String cropBehind;

    String variety = "";
    Stage stage = Stage.SEEDLING;
    double evaporation = 0.004;
    double canopy = 0.016;
    double edgeFlow = 0.12;
    double knee = 0.4;
    double rimWarmth = 0.35;
    double startWater = 0.85;
    TrayTraits.Habit habit = TrayTraits.Habit.PLAIN;

    /** Where the mat's middle lies off the tray's, in cells to the back and to the right. */
    double matBack;

    double matRight;
    /** How far the mat reaches, as a multiple of the tray. */
    double matReach = 1;

    /** Days between waterings; 0 for none. */
    int waterEvery = 1;
    /** Local hour of the watering. */
    double waterHour = 8;

    boolean fromBelow;

    final List<Zone> moistureAt = new ArrayList<>();
    final List<Zone> temperatureAt = new ArrayList<>();
    private final Map<Zone, Cell> places = new EnumMap<>(Zone.class);

    /** A tray whose probes will stand anywhere in their zones. */
    DraftTray(String id, Cells cells, String room, SplittableRandom chance) {
        this.id = id;
        this.cells = cells;
        this.room = room;
        for (Zone zone : Zone.values()) {
            List<Cell> inZone = cells(zone);
            if (!inZone.isEmpty()) {
                places.put(zone, inZone.get(chance.nextInt(inZone.size())));
            }
        }
    }

    private List<Cell> cells(Zone zone) {
        var found = new ArrayList<Cell>();
        for (int row = 1; row <= cells.rows(); row++) {
            for (int column = 1; column <= cells.columns(); column++) {
                var cell = new Cell(row, column);
                if (Zone.of(cell, cells) == zone) {
                    found.add(cell);
                }
            }
        }
        return found;
    }

    TrayTraits traits() {
        var footprint = new TrayTraits.Footprint(
                (cells.rows() + 1) / 2.0 + matBack,
                (cells.columns() + 1) / 2.0 + matRight,
                matReach * cells.rows() / 2.0,
                matReach * cells.columns() / 2.0,
                rimWarmth);
        return new TrayTraits(id, room, mat, cells, evaporation, canopy, edgeFlow, knee, 0.04, footprint, habit);
    }

    /** Where a zone's probe stands. */
    Cell cellOf(Zone zone) {
        Cell cell = places.get(zone);
        if (cell == null) {
            throw new IllegalArgumentException("no cell in " + zone + " of " + id);
        }
        return cell;
    }

    /** Lays a mat under it and germinating seed in it. */
    void onMat() {
        mat = "mat-" + id.charAt(2);
        stage = Stage.GERMINATING;
        canopy = 0;
    }

    /** Makes sure a zone has a moisture probe. */
    void watch(Zone zone) {
        if (!moistureAt.contains(zone)) {
            moistureAt.add(zone);
        }
    }

    /** Makes sure a zone has a thermometer. */
    void watchHeat(Zone zone) {
        if (!temperatureAt.contains(zone)) {
            temperatureAt.add(zone);
        }
    }

    /** The edge that is always probed. */
    Zone edge() {
        return moistureAt.get(1);
    }
}
