package traytender.config.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShowTest {
    /** Midday is 12:00 p.m. and midnight 12:00 a.m., as the US Government Publishing Office's style manual has it (from memory). */
    @ParameterizedTest
    @CsvSource({
        "00:00, 00:00, 12:00 am",
        "00:05, 00:05, 12:05 am",
        "06:30, 06:30, 6:30 am",
        "12:00, 12:00, 12:00 pm",
        "13:07, 13:07, 1:07 pm",
        "23:59, 23:59, 11:59 pm",
    })
    void timeOfDay_isToldByTheClockAskedFor(LocalTime time, String of24, String of12) {
        assertThat(Show.USUAL.clock(time)).isEqualTo(of24);
        assertThat(new Show(false, true).clock(time)).isEqualTo(of12);
    }

    @ParameterizedTest
    @CsvSource({"2026-03-14T17:30:00Z, 5:30 pm", "2026-06-14T17:30:00Z, 6:30 pm"})
    void moment_isToldInItsZone(Instant time, String of12) {
        assertThat(new Show(false, true).clock(time, ZoneId.of("Europe/Dublin")))
                .isEqualTo(of12);
    }
}
