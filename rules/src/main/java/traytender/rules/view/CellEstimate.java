package traytender.rules.view;

import traytender.config.site.Cell;
import traytender.config.site.Zone;

/**
 * The estimated moisture of one cell.
 *
 * @param moisture fraction of container capacity; NaN when the tray has no probe to judge it from
 * @param spread standard deviation of the estimate, in the same unit; NaN as above
 */
public record CellEstimate(Cell cell, Zone zone, double moisture, double spread) {}
