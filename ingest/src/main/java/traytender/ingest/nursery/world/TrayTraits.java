package traytender.ingest.nursery.world;

import org.jspecify.annotations.Nullable;
import traytender.config.site.Cells;

/**
 * What a tray of plugs is like.
 *
 * @param mat the mat under it; null for none
 * @param evaporation share of container capacity lost an hour from the medium, for each kPa between its own vapour and the air's
 * @param canopy the same through the leaves, in full light, for each kPa of the air's own deficit
 * @param edgeFlow how much more a border cell loses to moving air, as a share; a corner gets it twice
 * @param knee moisture below which drying falls off in proportion to what is left (falling-rate stage)
 * @param unlike standard deviation of the cells' own differences, as a share
 * @param footprint where the mat warms it
 * @param habit how it dries and warms otherwise than most
 */
public record TrayTraits(
        String id,
        String room,
        @Nullable String mat,
        Cells cells,
        double evaporation,
        double canopy,
        double edgeFlow,
        double knee,
        double unlike,
        Footprint footprint,
        Habit habit) {
    /** A tray like most. */
    public TrayTraits(
            String id,
            String room,
            @Nullable String mat,
            Cells cells,
            double evaporation,
            double canopy,
            double edgeFlow,
            double knee,
            double unlike,
            Footprint footprint) {
        this(id, room, mat, cells, evaporation, canopy, edgeFlow, knee, unlike, footprint, Habit.PLAIN);
    }

    /**
     * How trays differ in their nature; the spans that are drawn are our choice.
     *
     * @param falling below the knee drying goes with this power of what is left; 1 for proportion
     * @param sunDriven share of what leaves draw that follows the light alone and not the air's deficit, 0 to 1
     * @param growth by how much the leaves draw more each day, as a share
     * @param draught how much more the cells at the left border lose to a draught, as a share; it falls by e every {@value Plugs#DRAUGHT_REACH} cells
     * @param heaviness how slowly the plugs warm, as a multiple of common ones
     */
    public record Habit(double falling, double sunDriven, double growth, double draught, double heaviness) {
        /** As most trays. */
        public static final Habit PLAIN = new Habit(1, 0, 0, 0, 1);
    }

    /**
     * The mat's warmth under a tray: full at its middle, falling to {@code least} at its rim and beyond along a cosine.
     *
     * @param row the middle, in rows from the front, from 1; may lie outside the tray when two trays share a mat
     * @param column the middle, in columns from the left, from 1
     * @param halfRows from the middle to the rim, in rows
     * @param halfColumns from the middle to the rim, in columns
     * @param least share of the middle's warmth at the rim, 0 to 1
     */
    public record Footprint(double row, double column, double halfRows, double halfColumns, double least) {
        /** Under the whole tray, strongest in its middle. */
        public static Footprint under(Cells cells, double least) {
            return new Footprint(
                    (cells.rows() + 1) / 2.0,
                    (cells.columns() + 1) / 2.0,
                    cells.rows() / 2.0,
                    cells.columns() / 2.0,
                    least);
        }

        double at(int atRow, int atColumn) {
            double away = Math.max(Math.abs(atRow - row) / halfRows, Math.abs(atColumn - column) / halfColumns);
            return least + (1 - least) * (0.5 + 0.5 * Math.cos(Math.PI * Math.min(1, away)));
        }
    }
}
