package traytender.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Reading;
import traytender.config.site.Quantity;
import traytender.rules.view.TrayView;

/** What is looked back on is what was shown at the time. */
class TrayHistoryTest {
    private static final int HOURS = 8;
    private final TestBench bench = new TestBench()
            .all("T01", Quantity.MOISTURE, hour -> hour < 5 ? 0.9 - 0.03 * hour : 0.98 - 0.02 * (hour - 5))
            .reads("T01-corner-back-right-moisture", hour -> 0.8 - 0.02 * hour);

    @Test
    void history_isWhatTheLiveWatchShowed() {
        List<Reading> readings = bench.readings(HOURS).stream()
                .sorted(Comparator.comparingLong(Reading::timeMs).thenComparing(Reading::probe))
                .toList();
        List<Instant> times = IntStream.rangeClosed(2, HOURS - 1)
                .mapToObj(hour -> TestBench.at(hour))
                .toList();

        List<TrayView> history = TrayHistory.of(
                bench.folder(), bench.journal(), source(readings), "T01", TestBench.at(0), TestBench.at(0), times);

        assertThat(history).hasSameSizeAs(times);
        for (int i = 0; i < times.size(); i++) {
            TrayView live = shownLive(readings, times.get(i));
            assertThat(history.get(i).zones()).as("%s", times.get(i)).isEqualTo(live.zones());
            assertThat(history.get(i).estimates()).isEqualTo(live.estimates());
            assertThat(history.get(i).lastWatered()).isEqualTo(live.lastWatered());
            assertThat(history.get(i).asOf()).isEqualTo(times.get(i));
        }
    }

    @Test
    void timeBeforeAnythingWasHeard_knowsNothing() {
        List<TrayView> history = TrayHistory.of(
                bench.folder(),
                bench.journal(),
                source(bench.readings(1)),
                "T01",
                TestBench.at(0),
                TestBench.at(0).minus(Duration.ofDays(2)),
                List.of(
                        TestBench.at(0).minus(Duration.ofDays(1)),
                        TestBench.at(0).plus(Duration.ofMinutes(40))));

        assertThat(history.get(0).zones())
                .allSatisfy(zone -> assertThat(zone.moisture()).isNaN());
        assertThat(history.get(1).zones())
                .anySatisfy(zone -> assertThat(zone.moisture()).isPositive());
    }

    private TrayView shownLive(List<Reading> readings, Instant time) {
        try (var watch = new Watch(bench.folder(), bench.journal(), change -> {})) {
            watch.accept(readings.stream()
                    .filter(reading -> reading.time().isBefore(time))
                    .toList());
            watch.tick(time.plusSeconds(10));
            return watch.trays().stream()
                    .filter(tray -> tray.id().equals("T01"))
                    .findFirst()
                    .orElseThrow();
        }
    }

    private static traytender.config.reading.ReadingSource source(List<Reading> readings) {
        return (from, to, each) -> readings.stream()
                .filter(reading -> reading.timeMs() >= from && reading.timeMs() < to)
                .forEach(each);
    }
}
