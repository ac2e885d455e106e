package traytender.rules.drying;

/**
 * What is taken for granted of drying before a probe has shown it, and how much it may change. Doubts and wanderings are
 * standard deviations; those of rates are of their natural logarithm. All are our choice, tuned on made-up trays.
 *
 * @param ratePerHour moisture lost per hour in the light
 * @param rateDoubt of the logarithm of {@code ratePerHour}
 * @param darkRatePerHour moisture lost per hour in the dark
 * @param darkDoubt of the logarithm of {@code darkRatePerHour}
 * @param growthPerDay by which the logarithm of the leaves' part of the rate grows in a day
 * @param perKelvin what the probe reads more per kelvin
 * @param perKelvinDoubt of {@code perKelvin}
 * @param levelWander of the level beside the model, in an hour
 * @param rateWander of the logarithm of the rate, in an hour
 * @param darkWander of the logarithm of the rate in the dark, in an hour
 * @param rateChangeAtWatering of the logarithm of the rate, at each watering
 */
public record DryingPrior(
        double ratePerHour,
        double rateDoubt,
        double darkRatePerHour,
        double darkDoubt,
        double growthPerDay,
        double perKelvin,
        double perKelvinDoubt,
        double levelWander,
        double rateWander,
        double darkWander,
        double rateChangeAtWatering) {
    /** For a tray of which nothing is known. */
    public static final DryingPrior USUAL =
            new DryingPrior(0.012, 0.7, 0.0032, 0.5, 0.14, 0.001, 0.002, 0.0008, 0.010, 0.010, 0.03);
}
