package traytender.rules.drying;

/**
 * What is taken for granted of drying before a probe has shown it, and how much it may change. Doubts and wanderings are
 * standard deviations; those of rates are of their natural logarithm. All are our choice, tuned on made-up trays.
 *
 * @param ratePerHour moisture lost per hour in the light
 * @param rateDoubt of the logarithm of {@code ratePerHour}
 * @param darkShare rate in the dark over the rate in the light
 * @param darkDoubt of the logarithm of {@code darkShare}
 * @param perKelvinDoubt of the probe's reading per kelvin, about 0
 * @param levelWander of the level beside the model, in an hour
 * @param rateWander of the logarithm of the rate, in an hour
 * @param darkWander of the logarithm of the share in the dark, in an hour
 * @param rateChangeAtWatering of the logarithm of the rate, at each watering
 */
public record DryingPrior(
        double ratePerHour,
        double rateDoubt,
        double darkShare,
        double darkDoubt,
        double perKelvinDoubt,
        double levelWander,
        double rateWander,
        double darkWander,
        double rateChangeAtWatering) {
    /** For a tray of which nothing is known. */
    public static final DryingPrior USUAL = new DryingPrior(0.010, 0.9, 0.35, 0.6, 0.003, 0.001, 0.05, 0.02, 0.10);
}
