package traytender.rules.night;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.reference.Reference.number;

import org.junit.jupiter.api.Test;
import traytender.rules.reference.Reference;

/** Source: the FAO book's ten nights and the package that prints their fit (frost-*.csv). */
class NightLowTest {
    @Test
    void lowest_isThePublishedForecast() {
        assertThat(new NightLow().lowest(10, 2)).isCloseTo(-0.7409219, within(5e-7));
    }

    @Test
    void lowest_followsTheBooksTenNights() {
        var low = new NightLow();
        for (var row : Reference.rows("frost-forecast.csv")) {
            double air = number(row, "T0_C_two_hours_after_sunset");
            double dew = number(row, "Td_C_two_hours_after_sunset");
            assertThat(low.lowest(air, dew)).isCloseTo(number(row, "Tmin_step2_with_Td_C"), within(0.006));
            assertThat(low.lowest(air, Double.NaN)).isCloseTo(number(row, "Tmin_step1_from_T0_C"), within(0.006));
        }
    }

    @Test
    void trend_followsThePublishedHours() {
        for (var row : Reference.rows("frost-trend.csv")) {
            double value = NightLow.trend(
                    number(row, "Tmin_forecast"),
                    number(row, "T_two_hours_after_sunset"),
                    number(row, "hours_sunset_to_sunrise"),
                    number(row, "hour_after_sunset"));
            assertThat(value).as(row.toString()).isCloseTo(number(row, "T"), within(0.00001));
        }
    }

    /** Made up: a site three degrees milder than the book's. */
    @Test
    void lowest_comesToTheSite_asItsNightsPass() {
        var low = new NightLow();
        double before = low.lowest(6, 1);
        for (int night = 0; night < 20; night++) {
            double air = 3 + night % 7;
            low.passed(air, air - 4, 0.5 * air - 3, air + 6);
        }

        assertThat(before).isCloseTo(-2.77, within(0.02));
        assertThat(low.lowest(6, 1)).isCloseTo(0, within(0.5));
        assertThat(low.roughError()).isGreaterThan(low.error());
    }

    @Test
    void copy_goesOnByItself() {
        var low = new NightLow();
        var copy = low.copy();
        copy.passed(5, 1, 3, 9);

        assertThat(copy.lowest(5, 1)).isNotEqualTo(low.lowest(5, 1));
        assertThat(low.lowest(5, 1)).isEqualTo(new NightLow().lowest(5, 1));
    }
}
