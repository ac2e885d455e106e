package traytender.config.site;

import org.jspecify.annotations.Nullable;

/**
 * A room: propagation room, greenhouse or outdoor hardening area.
 *
 * @param id unique among rooms
 * @param light the lamps' hours; null when it has none
 */
public record Room(String id, RoomKind kind, @Nullable LampHours light) {}
