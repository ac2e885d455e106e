package traytender.rules.view;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Cells;

/**
 * What is known of one tray.
 *
 * @param room where it stands now
 * @param bench null when not said
 * @param mat null when it has none
 * @param zones zones that have a probe
 * @param estimates one for every cell, by row, then column
 * @param lastWatered the last watering found in readings or journal; null when none is known
 * @param evenness of the last watering, 1 for the same uptake everywhere, 0 for a zone that took none; NaN when unknown
 * @param asOf event time of the newest snapshot; null before the first
 */
public record TrayView(
        String id,
        String room,
        @Nullable String bench,
        @Nullable String mat,
        Cells cells,
        String medium,
        List<SowingView> sowings,
        List<ZoneView> zones,
        List<CellEstimate> estimates,
        @Nullable Instant lastWatered,
        double evenness,
        @Nullable Instant asOf) {}
