package traytender.rules.night;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.reference.Reference.number;

import org.junit.jupiter.api.Test;
import traytender.rules.reference.Reference;

/** Source: gdd.csv (Iowa State, UC IPM, TrenchR). */
class DegreeDaysTest {
    @Test
    void singleSine_withHorizontalCutOff_followsThePublishedValues() {
        int checked = 0;
        for (var row : Reference.rows("gdd.csv")) {
            if (row.get("method").equals("single sine, horizontal cut-off")) {
                double days = DegreeDays.singleSine(
                        number(row, "tmin"), number(row, "tmax"), number(row, "base"), number(row, "upper"));
                assertThat(days).as(row.toString()).isCloseTo(number(row, "published"), within(0.006));
                checked++;
            }
        }

        assertThat(checked).isEqualTo(5);
    }

    @Test
    void average_followsThePublishedValues() {
        assertThat(DegreeDays.average(50, 70, 50)).isEqualTo(10);
        assertThat(DegreeDays.average(64, 64, 53)).isEqualTo(11);
        assertThat(DegreeDays.average(55, 90, 50)).isEqualTo(22.5);
        assertThat(DegreeDays.average(0, 8, 10)).isZero();
    }

    /** Regression only: worked out from the formula. */
    @Test
    void singleSine_countsTheWarmHoursOfADayThatIsColdOnAverage() {
        assertThat(DegreeDays.singleSine(40, 60, 50)).isCloseTo(3.183, within(0.0005));
        assertThat(DegreeDays.singleSine(50, 80, 50)).isEqualTo(15);
    }
}
