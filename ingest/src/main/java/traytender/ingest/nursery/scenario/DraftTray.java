package traytender.ingest.nursery.scenario;

import java.util.ArrayList;
import java.util.List;
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
    String variety = "";
    Stage stage = Stage.SEEDLING;
    double evaporation = 0.004;
    double canopy = 0.016;
    double edgeFlow = 0.12;
    double knee = 0.4;
    double rimWarmth = 0.35;
    double startWater = 0.85;
    /** Days between waterings; 0 for none. */
    int waterEvery = 1;
    /** Local hour of the watering. */
    double waterHour = 8;

    final List<Zone> moistureAt = new ArrayList<>();
    final List<Zone> temperatureAt = new ArrayList<>();

    DraftTray(String id, Cells cells, String room) {
        this.id = id;
        this.cells = cells;
        this.room = room;
    }

    TrayTraits traits() {
        return new TrayTraits(
                id,
                room,
                mat,
                cells,
                evaporation,
                canopy,
                edgeFlow,
                knee,
                0.04,
                TrayTraits.Footprint.under(cells, rimWarmth));
    }

    /** Where a zone's probe stands. */
    static Cell cellOf(Zone zone, Cells cells) {
        int rows = cells.rows();
        int columns = cells.columns();
        return switch (zone) {
            case CENTRE, TRAY -> new Cell(rows / 2, columns / 2);
            case BETWEEN -> new Cell(rows / 2, 3);
            case EDGE_FRONT -> new Cell(1, columns / 2);
            case EDGE_BACK -> new Cell(rows, columns / 2);
            case EDGE_LEFT -> new Cell(rows / 2, 1);
            case EDGE_RIGHT -> new Cell(rows / 2 + 1, columns);
            case CORNER_FRONT_LEFT -> new Cell(1, 1);
            case CORNER_FRONT_RIGHT -> new Cell(1, columns);
            case CORNER_BACK_LEFT -> new Cell(rows, 1);
            case CORNER_BACK_RIGHT -> new Cell(rows, columns);
        };
    }
}
