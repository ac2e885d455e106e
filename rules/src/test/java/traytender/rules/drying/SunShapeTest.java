package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.shredzone.commons.suncalc.SunPosition;
import traytender.config.site.Location;

/** Dublin at midsummer: sunrise 03:57 and sunset 20:57 UTC by any almanac; noon near 12:27 UTC. */
class SunShapeTest {
    private static final Location PLACE = new Location(53.35, -6.26);
    private final SunShape sun = new SunShape(PLACE);

    private double at(String time) {
        return sun.at(Instant.parse(time).toEpochMilli());
    }

    private static double sine(String time) {
        double height = SunPosition.compute()
                .on(Instant.parse(time))
                .at(PLACE.latitude(), PLACE.longitude())
                .execute()
                .getAltitude();
        return Math.sin(Math.toRadians(height));
    }

    @Test
    void sun_isUsedFromSunriseToSunset_andLevelsOff() {
        assertThat(at("2026-06-21T02:00:00Z")).isZero();
        assertThat(at("2026-06-21T22:30:00Z")).isZero();
        assertThat(at("2026-06-21T12:30:00Z")).isBetween(0.9, 1.0);
        // More than in proportion to the height, which is what levelling off means.
        double noon = at("2026-06-21T12:30:00Z");
        assertThat(at("2026-06-21T08:30:00Z"))
                .isBetween(noon * sine("2026-06-21T08:30:00Z") / sine("2026-06-21T12:30:00Z"), noon);
        assertThat(at("2026-12-21T12:30:00Z")).isBetween(0.2, 0.7);
    }

    @Test
    void sun_withoutAPlace_isNone() {
        assertThat(new SunShape(null).at(0)).isZero();
    }
}
