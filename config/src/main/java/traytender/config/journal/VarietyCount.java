package traytender.config.journal;

import org.jspecify.annotations.Nullable;

/**
 * How many plants of one variety there were, over all trays, as far as the site file and the journal tell. {@link
 * VarietyCounts} makes it.
 *
 * @param seeds seeds sown; null when for some sowing it is not said how many a cell got
 * @param emerged plants that came up, by the newest word on each sowing; null when there was none
 * @param thinned taken out on purpose
 * @param lost died, or were given up
 * @param pottedUp potted up, into other trays or where they stood
 * @param plantedOut planted out
 */
public record VarietyCount(
        String crop,
        String variety,
        @Nullable Integer seeds,
        @Nullable Integer emerged,
        int thinned,
        int lost,
        int pottedUp,
        int plantedOut) {}
