package traytender.rules.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.shredzone.commons.suncalc.SunPosition;
import traytender.config.site.Location;

class SunTimesTest {
    private static final Instant START = Instant.parse("2025-01-01T00:00:00Z");

    /** Against the sun's height, which is worked out without any search for its setting; near the horizon both may differ by minutes. */
    @ParameterizedTest
    @CsvSource({
        "60.4, 24.1, Europe/Helsinki",
        "48.1, 15.6, Europe/Vienna",
        "44.9, -63.6, America/Halifax",
        "40.1, -105.1, America/Denver",
        "-36.9, 174.8, Pacific/Auckland"
    })
    void night_isWhenTheSunIsDown_allTheYear(double latitude, double longitude, String zone) {
        var sun = new SunTimes(new Location(latitude, longitude), ZoneId.of(zone));
        for (Instant time = START; time.isBefore(START.plus(Duration.ofDays(365))); time = time.plusSeconds(1700)) {
            double height = SunPosition.compute()
                    .at(latitude, longitude)
                    .on(time)
                    .execute()
                    .getTrueAltitude();
            if (Math.abs(height + 0.833) > 1) {
                assertThat(sun.isNight(time.toEpochMilli())).as("%s", time).isEqualTo(height < -0.833);
            }
            assertThat(sun.sunriseMs(time.toEpochMilli())).isGreaterThan(sun.sunsetMs(time.toEpochMilli()));
        }
    }
}
