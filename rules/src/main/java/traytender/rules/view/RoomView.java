package traytender.rules.view;

import org.jspecify.annotations.Nullable;

/**
 * A room's air.
 *
 * @param airTemperature C; NaN when unknown
 * @param humidity percent; NaN when unknown
 * @param lit 1 when lit, 0 when dark, between by the share of light; NaN when unknown
 * @param deficit what the air could still take up, kPa; NaN without temperature and humidity
 * @param night what is expected of the coming night, or the rest of it; null indoors, by day, or when unknown
 */
public record RoomView(
        String id,
        double airTemperature,
        double humidity,
        double lit,
        double deficit,
        @Nullable NightView night) {}
