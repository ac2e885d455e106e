package traytender.rules.view;

/**
 * How a mat warms a tray, as its temperatures have shown: first order, towards the room's air plus what the mat brings.
 *
 * @param gainK what the mat brings in the long run when it heats all the time, K
 * @param timeConstantHours in which two thirds of a change have come; its inverse is the loss to the room an hour
 * @param restOverAirK where the tray comes to with the mat at rest, over the room's air, K
 */
public record HeatView(double gainK, double timeConstantHours, double restOverAirK) {}
