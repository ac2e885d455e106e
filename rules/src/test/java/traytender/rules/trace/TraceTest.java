package traytender.rules.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;

/** Worked by hand: straight lines have means and areas anyone can check. */
class TraceTest {
    private static final Instant DUSK = Instant.parse("2026-03-28T18:00:00Z");
    private static final Duration PAUSE = Duration.ofMinutes(20);

    private static Reading at(double hours, double value) {
        return new Reading("p", DUSK.toEpochMilli() + Math.round(hours * 3_600_000), value, value, Marks.NONE);
    }

    private static List<Reading> every(int minutes, double fromHours, double toHours, double first, double last) {
        List<Reading> all = new ArrayList<>();
        for (double hours = fromHours; hours <= toHours + 1e-9; hours += minutes / 60.0) {
            all.add(at(hours, first + (last - first) * (hours - fromHours) / (toHours - fromHours)));
        }
        return all;
    }

    private static Trace trace(List<Reading> readings) {
        return new Trace(readings, DUSK, DUSK.plus(Duration.ofHours(10)), PAUSE);
    }

    @Test
    void mean_weighsByTime_notByReading() {
        List<Reading> readings = every(15, 0, 5, 20, 20);
        readings.addAll(every(1, 5.25, 9.99, 10, 10));

        assertThat(trace(readings).mean()).isCloseTo((5 * 20 + 0.25 * 15 + 4.75 * 10) / 10, within(0.01));
    }

    @Test
    void beyond_countsHoursAndDegreeHoursOfAStraightFall() {
        var below = trace(every(5, 0, 10, 12, 2)).beyond(7, false);

        // From 12 to 2 in ten hours: below 7 for the last five, by 2.5 on average.
        assertThat(below.hours()).isCloseTo(5, within(0.1));
        assertThat(below.unitHours()).isCloseTo(12.5, within(0.5));
        assertThat(trace(every(5, 0, 10, 12, 2)).beyond(12.5, true).hours()).isZero();
    }

    @Test
    void gap_isAGap_andNothingIsMadeUpForIt() {
        List<Reading> readings = every(5, 0, 4, 10, 10);
        readings.addAll(every(5, 7, 9.99, 0, 0));

        var gaps = trace(readings).gaps();

        assertThat(gaps).hasSize(1);
        assertThat(gaps.get(0).length()).isEqualTo(Duration.ofHours(3));
        assertThat(trace(readings).mean()).isCloseTo(4 * 10 / 7.0, within(0.05));
        assertThat(trace(readings).beyond(5, false).hours()).isCloseTo(3, within(0.1));
    }

    @Test
    void trace_isTheSameInAnyOrder_andTwice() {
        List<Reading> readings = every(5, 0, 9.99, 12, 2);
        List<Reading> mixed = new ArrayList<>(readings);
        mixed.addAll(readings);
        Collections.reverse(mixed);

        assertThat(trace(mixed).mean()).isEqualTo(trace(readings).mean());
        assertThat(trace(mixed).count()).isEqualTo(readings.size());
    }

    @Test
    void trace_leavesOutWhatTheProbeCannotMean() {
        List<Reading> readings = every(5, 0, 9.99, 12, 2);
        readings.add(new Reading("p", DUSK.toEpochMilli() + 60_000, 85, 85, Marks.SENSOR_ERROR));

        assertThat(java.util.Objects.requireNonNull(trace(readings).highest()).value())
                .isEqualTo(12);
    }

    @Test
    void silence_isOneGap() {
        assertThat(trace(List.of()).gaps()).hasSize(1);
        assertThat(trace(List.of()).mean()).isNaN();
    }
}
