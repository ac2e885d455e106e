package traytender.config.site;

import java.time.Instant;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Stage;

/**
 * One variety in a block of a tray, as its label stands in the tray.
 *
 * @param block the cells it fills
 * @param crop the crop's name, for example {@code tomato}
 * @param variety as on the label
 * @param sown the day it was sown; null when unknown
 * @param seedsPerCell seeds put in each cell, from 1; null when unknown
 * @param stage its own stage at the first reading; null when it is its tray's
 * @param since from when on it is in the tray, inclusive; {@link Instant#MIN} when it always was
 */
public record Sowing(
        CellBlock block,
        String crop,
        String variety,
        @Nullable LocalDate sown,
        @Nullable Integer seedsPerCell,
        @Nullable Stage stage,
        Instant since) {
    /** A sowing that has always been in its tray. */
    public Sowing(
            CellBlock block, String crop, String variety, @Nullable LocalDate sown, @Nullable Integer seedsPerCell) {
        this(block, crop, variety, sown, seedsPerCell, null, Instant.MIN);
    }

    /** This sowing in other cells. */
    public Sowing withBlock(CellBlock other) {
        return new Sowing(other, crop, variety, sown, seedsPerCell, stage, since);
    }
}
