package traytender.config.site;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Stage;

/**
 * A plug tray as the site file describes it; the journal moves its room and its sowings' stages on.
 *
 * @param id unique among trays
 * @param room the id of the room it stands in at first
 * @param bench where it stands side by side with others; null when not said
 * @param mat the id of the mat under it; null when it has none
 * @param medium the potting mix's name
 * @param stage the stage of its sowings at the first reading
 * @param since from when on the tray exists; {@link Instant#MIN} when it always has
 */
public record Tray(
        String id,
        String room,
        @Nullable String bench,
        @Nullable String mat,
        Cells cells,
        String medium,
        Stage stage,
        List<Sowing> sowings,
        Instant since) {
    public Tray {
        sowings = List.copyOf(sowings);
    }

    /** The sowing a cell counts to: its own, else the nearest one; the first in the list among equally near ones. */
    public Optional<Sowing> sowingAt(Cell cell) {
        return sowings.stream()
                .min(Comparator.comparingDouble(sowing -> sowing.block().distanceTo(cell)));
    }
}
