package traytender.rules.night;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import traytender.config.journal.Growing;
import traytender.config.reading.Reading;
import traytender.rules.TestBench;

/** A made-up bench over a day and a night; the figures follow from what its probes are told to read. */
class NightsTest {
    private static final LocalDate EVENING = LocalDate.of(2026, 3, 10);

    private static NightReport report(TestBench bench, double hours) {
        var folder = bench.folder();
        List<Reading> readings = bench.readings(hours);
        var growing = Growing.of(folder.site(), folder.crops(), bench.journal());
        return Nights.report(
                folder.site(),
                growing,
                EVENING,
                readings.get(readings.size() - 1).time(),
                probe -> readings.stream()
                        .filter(reading -> reading.probe().equals(probe.id()))
                        .toList());
    }

    private static NightReport.ProbeNight of(NightReport report, String probe) {
        return report.probes().stream()
                .filter(night -> night.probe().id().equals(probe))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void coldNight_isCountedAgainstTheLimitOfItsRoom() {
        // The frame stands at 14 C by day and at 5 C from 22:00 to 02:00; its limit at night is 8 C.
        var bench = new TestBench().reads("frame-air", hour -> hour >= 22 && hour < 26 ? 5 : 14);

        var report = report(bench, 36);
        var frame = of(report, "frame-air");

        assertThat(report.complete()).isTrue();
        assertThat(report.bySun()).isTrue();
        assertThat(frame.room()).isEqualTo("cold-frame");
        assertThat(frame.lowest()).isCloseTo(5, within(0.1));
        assertThat(frame.lowestAt()).isBetween(TestBench.at(22), TestBench.at(26));
        assertThat(Objects.requireNonNull(frame.below()).hours()).isCloseTo(4, within(0.05));
        assertThat(frame.below().unitHours()).isCloseTo(12, within(0.3));
        assertThat(Objects.requireNonNull(frame.above()).hours()).isZero();
        assertThat(frame.dayMean()).isCloseTo(14, within(0.05));
        double night = report.length().toMinutes() / 60.0;
        assertThat(frame.dayNightDifference()).isCloseTo(9 * 4 / night, within(0.05));
    }

    @Test
    void silentHours_areAGap_butWhatIsStillToComeOfTheNightIsNone() {
        var bench = new TestBench().reads("frame-air", hour -> hour > 23 && hour < 25 ? Double.NaN : 10);

        for (double hours : new double[] {36, 27}) {
            assertThat(of(report(bench, hours), "frame-air").gaps())
                    .singleElement()
                    .satisfies(gap -> assertThat(gap.length().toMinutes()).isBetween(118L, 124L));
        }
        assertThat(report(bench, 36).complete()).isTrue();
        assertThat(report(bench, 27).complete()).isFalse();
    }

    @Test
    void probeSilentWhileOthersSpeak_hasAGapToTheNewestReading() {
        var bench = new TestBench().reads("frame-air", hour -> hour > 24 ? Double.NaN : 10);

        assertThat(of(report(bench, 27), "frame-air").gapTime())
                .isBetween(Duration.ofMinutes(178), Duration.ofMinutes(184));
    }

    @Test
    void rootZone_isJudgedByTheSowingInItsCell_andHasDegreeDays() {
        var root = of(report(new TestBench(), 36), "T01-centre-temperature");

        assertThat(root.tray()).isEqualTo("T01");
        assertThat(Objects.requireNonNull(root.below()).limit()).isEqualTo(16);
        assertThat(Objects.requireNonNull(root.degreeDays()).average()).isCloseTo(12, within(0.1));
    }
}
