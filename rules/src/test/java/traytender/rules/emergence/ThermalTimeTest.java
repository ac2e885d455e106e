package traytender.rules.emergence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.reference.Reference.number;

import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import traytender.config.crop.Crop;
import traytender.rules.reference.Reference;

/**
 * Sources: Harrington and Minges 1954 (germination-days.csv) and straight lines through it (thermal-time-fitted.csv, computed).
 */
class ThermalTimeTest {
    private static final long HOUR_MS = 3_600_000;

    private static Map<String, Crop.Emergence> fitted() {
        var found = new TreeMap<String, Crop.Emergence>();
        for (var row : Reference.rows("thermal-time-fitted.csv")) {
            found.put(
                    row.get("crop"),
                    new Crop.Emergence(number(row, "base_C_fitted"), number(row, "thermal_time_C_days_fitted")));
        }
        return found;
    }

    /** A tolerance of a day is the table's own; a fifth beside is what a straight line through four points is off by. */
    @Test
    void days_followTheTableBetween15And30() {
        int checked = 0;
        for (var row : Reference.rows("germination-days.csv")) {
            double celsius = number(row, "soil_temp_C");
            if (!row.get("days_S01").matches("[0-9]+") || celsius < 15 || celsius > 30) {
                continue;
            }
            double days = number(row, "days_S01");
            assertThat(ThermalTime.daysAt(fitted().get(row.get("crop")), celsius))
                    .as(row.get("crop") + " at " + celsius)
                    .isCloseTo(days, within(1 + 0.2 * days));
            checked++;
        }

        assertThat(checked).isGreaterThanOrEqualTo(15);
    }

    @Test
    void progress_atASteadyTemperature_isDaysOverDaysAt() {
        var tomato = fitted().get("Tomato");
        var time = new ThermalTime(tomato, 0);
        for (int hour = 1; hour <= 96; hour++) {
            time.accept(hour * HOUR_MS, 20);
        }

        assertThat(time.progress()).isCloseTo(4 / ThermalTime.daysAt(tomato, 20), within(1e-9));
        assertThat(time.dueMs(1) / 86_400_000.0).isCloseTo(ThermalTime.daysAt(tomato, 20), within(1e-6));
        assertThat(time.isWindowOpen()).isFalse();
    }

    @Test
    void gap_isBridgedByTheMean_andBeforeSowingNothingCounts() {
        var tomato = fitted().get("Tomato");
        var time = new ThermalTime(tomato, 0);
        time.accept(-HOUR_MS, 40);
        for (int hour = 1; hour <= 24; hour++) {
            time.accept(hour * HOUR_MS, 20);
        }
        for (int hour = 48; hour <= 72; hour++) {
            time.accept(hour * HOUR_MS, 20);
            time.accept(hour * HOUR_MS, 35);
        }

        assertThat(time.degreeDays()).isCloseTo(3 * (20 - tomato.baseC()), within(1e-9));
    }

    @Test
    void cold_neverBringsThemUp() {
        var time = new ThermalTime(fitted().get("Pepper"), 0);
        time.accept(HOUR_MS, 5);
        time.accept(3 * HOUR_MS, 5);

        assertThat(time.dueMs(1)).isEqualTo(Long.MAX_VALUE);
        assertThat(ThermalTime.daysAt(fitted().get("Pepper"), 5)).isInfinite();
    }
}
