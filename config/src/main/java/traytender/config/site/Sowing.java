package traytender.config.site;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * One variety in a block of a tray, as its label stands in the tray.
 *
 * @param block the cells it fills
 * @param crop the crop's name, for example {@code tomato}
 * @param variety as on the label
 * @param sown the day it was sown; null when unknown
 * @param seedsPerCell seeds put in each cell, from 1; null when unknown
 */
public record Sowing(
        CellBlock block,
        String crop,
        String variety,
        @Nullable LocalDate sown,
        @Nullable Integer seedsPerCell) {}
