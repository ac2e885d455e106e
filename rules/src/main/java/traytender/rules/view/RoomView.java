package traytender.rules.view;

/**
 * A room's air.
 *
 * @param airTemperature C; NaN when unknown
 * @param humidity percent; NaN when unknown
 * @param lit 1 when lit, 0 when dark, between by the share of light; NaN when unknown
 */
public record RoomView(String id, double airTemperature, double humidity, double lit) {}
