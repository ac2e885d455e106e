package traytender.ingest.nursery.world;

import org.jspecify.annotations.Nullable;
import traytender.config.site.LampHours;
import traytender.config.site.RoomKind;

/**
 * What a room is like.
 *
 * @param dayC the warmest its heater and the day make it, in C
 * @param nightC the coldest its heater lets it become, in C
 * @param humidity relative humidity at {@code dayC}/{@code nightC} on an ordinary day, 0 to 1; indoors only
 * @param lamps the lamps' hours; null for daylight alone
 */
public record RoomTraits(
        String id,
        RoomKind kind,
        double dayC,
        double nightC,
        double humidity,
        @Nullable LampHours lamps) {}
