package traytender.rules.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.rules.TestBench;
import traytender.rules.night.NightReport;

/** On 10 March 2026 the sun sets in Dublin at about 18:20 and rises at about 06:47 (commons-suncalc). */
class RoomNightsTest {
    private static final double SET = 18.33;
    private static final double NIGHT = 12.4;

    /** Every day 10 C in the afternoon, 7 C at sunset, then with the square root of time down to -1 C. */
    private static double clearNights(double hour) {
        double since = (hour + 24 - SET) % 24;
        if (since < NIGHT) {
            return 7 - 8 * Math.sqrt(since / NIGHT);
        }
        return Math.min(10, Math.min(-1 + 3 * (since - NIGHT), 7 + 1.5 * (24 - since)));
    }

    private static List<NightReport.RoomNight> nights(TestBench bench, double hours, LocalDate date) {
        List<Reading> all = bench.readings(hours);
        var shared = new Bench(bench.folder(), bench.folder().crops(), bench.journal(), TestBench.START);
        return RoomNights.of(shared, date, TestBench.at(hours), probe -> of(probe, all));
    }

    private static List<Reading> of(Probe probe, List<Reading> all) {
        return all.stream()
                .filter(reading -> reading.probe().equals(probe.id()))
                .toList();
    }

    @Test
    void everyOutdoorRoom_hasItsForecastBesideWhatCame() {
        var bench = new TestBench().reads("frame-air", RoomNightsTest::clearNights);

        assertThat(nights(bench, 5 * 24, LocalDate.of(2026, 3, 13)))
                .singleElement()
                .satisfies(night -> {
                    assertThat(night.room()).isEqualTo("cold-frame");
                    assertThat(night.forecast().came()).isCloseTo(-1, within(0.15));
                    assertThat(night.forecast().lowest()).isCloseTo(-1, within(1.0));
                    assertThat(night.forecast().rough()).isCloseTo(-1, within(2.0));
                    assertThat(night.forecast().nightsBefore()).isEqualTo(3);
                    assertThat(night.forecast().clear()).isTrue();
                });
    }

    @Test
    void aNightThatIsNotOver_isToldAsFarAsItHasCome() {
        var bench = new TestBench().reads("frame-air", RoomNightsTest::clearNights);

        assertThat(nights(bench, 24 + 21, LocalDate.of(2026, 3, 11)))
                .singleElement()
                .satisfies(night -> {
                    assertThat(night.forecast().came()).isBetween(2.5, 4.5);
                    assertThat(night.forecast().lowest()).isBetween(-4.0, 2.0);
                });
    }

    @Test
    void withoutReadings_nothingIsToldOfANight() {
        var bench = new TestBench().reads("frame-air", Double.NaN);

        assertThat(nights(bench, 30, LocalDate.of(2026, 3, 10))).isEmpty();
    }
}
