package traytender.ingest.nursery.world;

import java.time.Instant;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Something that happens in the nursery at a minute.
 *
 * @param at a whole minute
 * @param waters the tray it waters; null when it is no watering
 * @param effect what it does
 */
public record Happening(Instant at, @Nullable String waters, Consumer<World> effect) {
    /** No watering. */
    public static Happening of(Instant at, Consumer<World> effect) {
        return new Happening(at, null, effect);
    }
}
