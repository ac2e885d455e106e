package traytender.rules.night;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.reference.Reference.number;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Location;
import traytender.rules.reference.Reference;
import traytender.rules.trace.Gap;
import traytender.rules.trace.Trace;

/**
 * Hourly temperatures of Seattle around both changes of summer time (see the README beside the file), labelled by the local clock.
 * Expected values were worked out from the same file by a separate program in another language.
 */
class RealTemperaturesTest {
    private static final ZoneId SEATTLE = ZoneId.of("America/Los_Angeles");
    private static final Location PLACE = new Location(47.6, -122.3);
    private static final Duration PAUSE = Duration.ofMinutes(80);

    private static List<Reading> readings() {
        var label = DateTimeFormatter.ofPattern("uuuu/MM/dd HH:mm");
        var readings = new ArrayList<Reading>();
        for (var row : Reference.rows("seattle-temps-extract.csv")) {
            long time = LocalDateTime.parse(row.get("date"), label)
                    .atZone(SEATTLE)
                    .toInstant()
                    .toEpochMilli();
            double celsius = (number(row, "temp") - 32) / 1.8;
            readings.add(new Reading("frame-air", time, celsius, celsius, Marks.NONE));
        }
        return readings;
    }

    private static Trace trace(String from, String to) {
        return new Trace(readings(), Instant.parse(from), Instant.parse(to), PAUSE);
    }

    @Test
    void theHourThatTheClocksSkipInMarch_isNoGap_andNothingIsCountedTwice() {
        Trace night = trace("2010-03-14T02:00:00Z", "2010-03-14T14:00:00Z");

        assertThat(night.count()).isEqualTo(12);
        assertThat(night.gaps()).isEmpty();
        assertThat(night.mean()).isCloseTo(6.763889, within(1e-5));
        assertThat(java.util.Objects.requireNonNull(night.lowest()).time())
                .isEqualTo(Instant.parse("2010-03-14T13:00:00Z"));
        assertThat(night.beyond(6, false).hours()).isCloseTo(3.75, within(1e-3));
        assertThat(night.beyond(6, false).unitHours()).isCloseTo(1.847222, within(1e-3));
    }

    @Test
    void theHourThatTheFileLacksInNovember_isAGap_andNothingIsMadeUpForIt() {
        Trace night = trace("2010-11-07T06:00:00Z", "2010-11-07T12:00:00Z");

        assertThat(night.gaps())
                .containsExactly(new Gap(Instant.parse("2010-11-07T08:00:00Z"), Instant.parse("2010-11-07T10:00:00Z")));
        // (8 + 7.722) / 2 and (7.722 + 7.611) / 2, then (7.444 + 7.278) / 2 and an hour of 7.278: four hours heard of
        // six.
        assertThat(night.mean()).isCloseTo((7.8611 + 7.6667 + 7.3611 + 7.2778) / 4, within(1e-3));
    }

    /** The clock says 13 h 14 min from sunset to sunrise; from memory of almanacs, so ten minutes wide. */
    @Test
    void theNightOfTheChange_isAsLongAsTheSunMakesIt() {
        NightSpan change = NightSpan.of(PLACE, SEATTLE, LocalDate.of(2010, 3, 13));
        NightSpan before = NightSpan.of(PLACE, SEATTLE, LocalDate.of(2010, 3, 12));

        assertThat(change.length()).isBetween(Duration.ofMinutes(724), Duration.ofMinutes(744));
        assertThat(before.length().minus(change.length()).toMinutes()).isBetween(2L, 5L);
        assertThat(new Trace(readings(), change.sunset(), change.sunrise(), PAUSE).count())
                .isEqualTo(12);
    }

    /**
     * Hour by hour above 5 C these eight days have 22.282 degree days. A sine through lowest and highest takes their long nights for
     * warmer than they are: it is off by a third of a degree day a day, no more.
     */
    @Test
    void singleSine_isWithinAThirdOfADegreeDay_ofTheRealHours() {
        double hourly = 0;
        double sine = 0;
        for (int day : Stream.of(10, 11, 12, 13, 15, 16, 17, 18).toList()) {
            Instant from = LocalDate.of(2010, 3, day).atStartOfDay(SEATTLE).toInstant();
            List<Reading> hours = readings().stream()
                    .filter(reading ->
                            !reading.time().isBefore(from) && reading.time().isBefore(from.plus(Duration.ofDays(1))))
                    .toList();
            double lowest = hours.stream().mapToDouble(Reading::value).min().orElseThrow();
            double highest = hours.stream().mapToDouble(Reading::value).max().orElseThrow();
            double real = hours.stream()
                            .mapToDouble(reading -> Math.max(0, reading.value() - 5))
                            .sum()
                    / 24;
            assertThat(hours).hasSize(24);
            assertThat(DegreeDays.singleSine(lowest, highest, 5)).isCloseTo(real, within(0.35));
            hourly += real;
            sine += DegreeDays.singleSine(lowest, highest, 5);
        }

        assertThat(hourly).isCloseTo(22.2824, within(0.001));
        assertThat(sine).isCloseTo(24.9167, within(0.001));
    }
}
