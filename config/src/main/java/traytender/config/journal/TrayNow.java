package traytender.config.journal;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Cell;
import traytender.config.site.Cells;

/**
 * A tray as it stands from one change to the next. Immutable.
 *
 * @param tray the tray's id
 * @param room the id of the room it stands in
 * @param mat the id of the mat under it; null when it has none, or stands in another room than its mat
 * @param cells its size
 * @param sowings everything that stands in it, planted-out sowings too; empty once all was potted up into other trays
 * @param covered whether a dome or sheet lies over it
 * @param turned whether it stands turned half round from how the site file draws it
 * @param since from when on all this holds, inclusive; {@link Instant#MIN} from the beginning
 * @param movedAt when it last came to another room; null when it was not moved
 */
public record TrayNow(
        String tray,
        String room,
        @Nullable String mat,
        Cells cells,
        List<SowingNow> sowings,
        boolean covered,
        boolean turned,
        Instant since,
        @Nullable Instant movedAt) {
    public TrayNow {
        sowings = List.copyOf(sowings);
    }

    /**
     * The sowing whose limits judge a cell: its own, else the nearest one, the first in the list among equally near ones.
     *
     * @param cell as the tray stands now; see {@link Growing#cell}
     */
    public Optional<SowingNow> sowingAt(Cell cell) {
        return sowings.stream()
                .min(Comparator.comparingDouble(sowing -> sowing.block().distanceTo(cell)));
    }

    /** Whether any sowing in it is still watched. */
    public boolean isWatched() {
        return sowings.stream().anyMatch(SowingNow::isWatched);
    }
}
