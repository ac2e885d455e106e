package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;

/** Which silences of a whole site are told. */
class SilencesTest {
    private static final long START_MS = Instant.parse("2026-03-14T05:00:00Z").toEpochMilli();

    private static List<String> heardAt(int... minutes) {
        var silences = new Silences();
        ReadingSource readings = (from, to, consumer) -> {
            for (int minute : minutes) {
                consumer.accept(new Reading("T01-centre-moisture", START_MS + 60_000L * minute, 0.7, 0.7, 0));
            }
        };
        var passed = new ArrayList<Reading>();
        silences.hearing(readings).scan(Long.MIN_VALUE, Long.MAX_VALUE, passed::add);
        assertThat(passed).hasSize(minutes.length);
        return silences.lines();
    }

    @Test
    void anHourWithoutAnyProbe_isTold_lessIsNot() {
        assertThat(heardAt(0, 59, 118)).isEmpty();
        assertThat(heardAt(0, 5, 305))
                .singleElement()
                .asString()
                .contains("from 2026-03-14T05:05:00Z to 2026-03-14T10:05:00Z (5 h)")
                .contains("no tray was watched");
    }

    @Test
    void manySilences_areCounted() {
        int[] hourly =
                java.util.stream.IntStream.range(0, 16).map(hour -> 61 * hour).toArray();

        assertThat(heardAt(hourly)).hasSize(11).last().isEqualTo("and 5 times more");
    }

    @Test
    void noReading_isNoSilence() {
        assertThat(heardAt()).isEmpty();
        assertThat(heardAt(7)).isEmpty();
    }
}
