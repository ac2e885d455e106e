package traytender.rules.trace;

/**
 * Time beyond a limit.
 *
 * @param hours how long
 * @param unitHours how far beyond, summed over the hours: degree-hours for a temperature
 */
public record Beyond(double limit, double hours, double unitHours) {}
