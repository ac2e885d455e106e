package traytender.rules.night;

/**
 * What was foretold of one night in an outdoor room, and what came. Temperatures in C, NaN is unknown.
 *
 * @param sunsetMs it began then; milliseconds since 1970, to the minute
 * @param sunriseMs it ended then
 * @param rough lowest as foretold roughly from two hours before sunset on
 * @param lowest lowest as foretold two hours after sunset
 * @param doubt standard error of {@code lowest} as told with it
 * @param clear whether the evening was clear, so that leaves under open sky run {@link NightLow#LEAF_BELOW_AIR_C} colder
 * @param came lowest that came, up to now or to sunrise
 * @param nightsBefore how many of this site's nights had been seen by then
 */
public record NightForecast(
        long sunsetMs,
        long sunriseMs,
        double rough,
        double lowest,
        double doubt,
        boolean clear,
        double came,
        int nightsBefore) {
    /** Lowest of leaves under open sky as foretold; NaN in a night that is not clear. */
    public double leaf() {
        return clear ? NightLow.leaf(lowest) : Double.NaN;
    }

    /** How much colder it was foretold than it came, C; NaN when either is unknown. */
    public double missedBy() {
        return came - lowest;
    }
}
