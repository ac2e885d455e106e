package traytender.config.site;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * An electric heat mat under one or more trays.
 *
 * @param id unique among mats
 * @param room the id of the room it lies in
 * @param ownThermostat whether it has a thermostat of its own
 * @param relay how it can be told to rest; null when the program may not
 * @param since from when on it lies there, inclusive; {@link Instant#MIN} when it always did
 */
public record Mat(
        String id,
        String room,
        boolean ownThermostat,
        @Nullable Relay relay,
        Instant since) {
    /** A mat that has always lain there. */
    public Mat(String id, String room, boolean ownThermostat, @Nullable Relay relay) {
        this(id, room, ownThermostat, relay, Instant.MIN);
    }
}
