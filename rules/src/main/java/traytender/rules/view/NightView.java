package traytender.rules.view;

import java.time.Instant;

/**
 * The lowest to expect of an outdoor room's air before sunrise. Temperatures in C.
 *
 * @param lowest in the air
 * @param doubt standard error of {@code lowest}
 * @param rough whether it is the rough estimate made before two hours after sunset
 * @param leaf what leaves under open sky come to; NaN when the evening is not clear
 * @param coldBelow the strictest night limit of what stands there; NaN when nothing does
 * @param frost the strictest frost limit of what stands there; NaN when nothing does
 */
public record NightView(
        double lowest, double doubt, boolean rough, double leaf, Instant sunrise, double coldBelow, double frost) {}
