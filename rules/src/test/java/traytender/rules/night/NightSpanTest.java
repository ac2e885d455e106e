package traytender.rules.night;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import traytender.config.site.Location;

class NightSpanTest {
    private static final ZoneId DUBLIN = ZoneId.of("Europe/Dublin");
    private static final Location ALDER_LANE = new Location(53.35, -6.26);

    /** Met tables print 06:06 and 18:37 or a minute beside for Dublin at the March equinox; from memory, so ten minutes wide. */
    @Test
    void night_atTheEquinox_isAboutTwelveHours() {
        NightSpan span = NightSpan.of(ALDER_LANE, DUBLIN, LocalDate.of(2026, 3, 20));

        assertThat(span.bySun()).isTrue();
        assertThat(span.sunset())
                .isBetween(Instant.parse("2026-03-20T18:28:00Z"), Instant.parse("2026-03-20T18:50:00Z"));
        assertThat(span.length()).isBetween(Duration.ofMinutes(690), Duration.ofMinutes(720));
        assertThat(span.sunriseBefore()).isBefore(span.sunset());
    }

    @Test
    void night_overTheChangeToSummerTime_isAsLongAsItReallyIs() {
        NightSpan change = NightSpan.of(ALDER_LANE, DUBLIN, LocalDate.of(2026, 3, 28));
        NightSpan after = NightSpan.of(ALDER_LANE, DUBLIN, LocalDate.of(2026, 3, 29));

        assertThat(change.length().minus(after.length()).abs()).isLessThan(Duration.ofMinutes(6));
        assertThat(Duration.between(change.sunrise(), after.sunriseBefore()).abs())
                .isLessThanOrEqualTo(Duration.ofMinutes(1));
    }

    @Test
    void night_byTheClock_losesAnHourInTheChange() {
        NightSpan change = NightSpan.of(null, DUBLIN, LocalDate.of(2026, 3, 28));

        assertThat(change.bySun()).isFalse();
        assertThat(change.length()).isEqualTo(Duration.ofHours(9));
        assertThat(NightSpan.of(null, DUBLIN, LocalDate.of(2026, 10, 24)).length())
                .isEqualTo(Duration.ofHours(11));
    }

    @Test
    void night_whereTheSunDoesNotSet_isCountedByTheClock() {
        NightSpan midsummer =
                NightSpan.of(new Location(69.65, 18.96), ZoneId.of("Europe/Oslo"), LocalDate.of(2026, 6, 21));
        NightSpan midwinter =
                NightSpan.of(new Location(69.65, 18.96), ZoneId.of("Europe/Oslo"), LocalDate.of(2026, 12, 21));

        assertThat(midsummer.bySun()).isFalse();
        assertThat(midwinter.bySun()).isFalse();
        assertThat(midsummer.length()).isEqualTo(Duration.ofHours(10));
    }
}
