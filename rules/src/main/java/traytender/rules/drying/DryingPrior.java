package traytender.rules.drying;

/**
 * What is taken for granted of drying before a probe has shown it, and how much it may change. Doubts and wanderings are
 * standard deviations; weak on purpose, since each tray shows its own within a day. All are our choice.
 *
 * @param mediumPerHour moisture lost per hour from the medium itself, day and night, at the usual pull of the air
 * @param mediumDoubt of {@code mediumPerHour}
 * @param lampPerHour moisture lost through the leaves per hour more in the hours of even light
 * @param sunPerHour the same in a high sun
 * @param leafDoubt of each of the two
 * @param leafTrade correlation of the two: the more of the one, the less of the other
 * @param growthPerDay by which the leaves' part grows in a day, as a share
 * @param growthDoubt of {@code growthPerDay}
 * @param knee moisture below which drying slows down in proportion to what is left
 * @param kneeDoubt of {@code knee}
 * @param perKelvin what the probe reads more per kelvin
 * @param perKelvinDoubt of {@code perKelvin}
 * @param levelWander of the level beside the model, in an hour
 * @param mediumWander of the medium's part, as a share, in an hour
 * @param leafWander of the leaves' part, as a share, in an hour
 * @param rateChangeAtWatering of both parts, as a share, at each watering
 * @param cloudShare by which passing clouds make the sun's part more or less than usual
 */
public record DryingPrior(
        double mediumPerHour,
        double mediumDoubt,
        double lampPerHour,
        double sunPerHour,
        double leafDoubt,
        double leafTrade,
        double growthPerDay,
        double growthDoubt,
        double knee,
        double kneeDoubt,
        double perKelvin,
        double perKelvinDoubt,
        double levelWander,
        double mediumWander,
        double leafWander,
        double rateChangeAtWatering,
        double cloudShare) {
    /** For a tray of which nothing is known. */
    public static final DryingPrior USUAL = new DryingPrior(
            0.0038, 0.002, 0.006, 0.006, 0.006, -0.5, 0.06, 0.05, 0.52, 0.06, 0.0, 0.0015, 0.0015, 0.01, 0.02, 0.03,
            0.25);
}
