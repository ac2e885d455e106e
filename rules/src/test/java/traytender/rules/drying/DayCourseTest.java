package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Arithmetic. */
class DayCourseTest {
    private static final long HALF_HOUR = 1_800_000;
    private static final long START = MadeUpProbe.START_MS;

    private final DayCourse course = new DayCourse();

    private void run(int halves, double added, int from) {
        for (int i = from; i < from + halves; i++) {
            course.note(START + i * HALF_HOUR, i % 48 + added);
            course.note(START + i * HALF_HOUR + 60_000, i % 48 + added);
        }
    }

    @Test
    void tomorrow_isTakenForToday() {
        run(48, 0, 0);

        assertThat(course.mean()).isCloseTo(23.5, within(1e-9));
        assertThat(course.at(START + 58 * HALF_HOUR)).isEqualTo(10);
        run(48, 0, 48);
        assertThat(course.at(START + (96 + 10) * HALF_HOUR)).isEqualTo(10);
    }

    @Test
    void differenceFromYesterday_isCarriedOnAndForgotten() {
        run(48, 0, 0);
        run(20, 6, 48);

        assertThat(course.at(START + 68 * HALF_HOUR)).isCloseTo(20 + 6 * Math.exp(-0.5 / 4), within(1e-9));
        assertThat(course.at(START + 92 * HALF_HOUR)).isCloseTo(44, within(0.4));
    }

    @Test
    void firstDay_goesOverIntoItsMean_andNothingKnownIsNothing() {
        assertThat(course.at(START)).isNaN();
        run(10, 0, 0);

        assertThat(course.at(START + 9 * HALF_HOUR)).isEqualTo(9);
        assertThat(course.at(START + 40 * HALF_HOUR)).isCloseTo(4.5, within(0.1));
    }

    @Test
    void copy_goesOnByItself() {
        run(48, 0, 0);
        var copy = course.copy();
        copy.note(START + 48 * HALF_HOUR, 100);

        assertThat(course.mean()).isCloseTo(23.5, within(1e-9));
        assertThat(copy.mean()).isGreaterThan(25);
    }
}
