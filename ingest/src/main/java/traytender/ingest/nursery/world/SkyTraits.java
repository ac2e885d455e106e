package traytender.ingest.nursery.world;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Map;
import traytender.config.site.Location;

/**
 * What a place's weather is like.
 *
 * @param meanC the day's mean outside, in C
 * @param swingK half the difference between afternoon and dawn on an ordinary day, in K
 * @param wanderK how far the mean wanders from day to day, in K
 * @param dampness outside relative humidity at the day's mean temperature, 0 to 1
 * @param clearNights how many K below an ordinary dawn the air falls in the clear night that begins on that date
 */
public record SkyTraits(
        Location location,
        ZoneId zone,
        double meanC,
        double swingK,
        double wanderK,
        double dampness,
        Map<LocalDate, Double> clearNights) {
    public SkyTraits {
        clearNights = Map.copyOf(clearNights);
    }
}
