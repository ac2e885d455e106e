package traytender.rules.cells;

import traytender.config.site.Cell;

/**
 * What one probe says of its cell.
 *
 * @param level moisture or temperature
 * @param spread standard deviation of {@code level}, above 0
 */
public record ProbeLevel(Cell cell, double level, double spread) {}
