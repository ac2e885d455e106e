package traytender.rules.emergence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.reference.Reference.number;

import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
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

    /** Rows that no straight line through their crop's days meets: slow where it is cold, or past their best warmth. */
    private static final Set<String> OFF_THE_LINE = Set.of(
            "Bean, lima at 15 C", "Bean, lima at 20 C", "Corn, sweet at 10 C", "Parsnip at 30 C", "Turnip at 10 C");

    /** A tolerance of a day is the table's own; a fifth beside is what a straight line through four points is off by. */
    @Test
    void days_followTheTableBetween10And30_butForTheRowsNamed() {
        var off = new TreeSet<String>();
        int checked = 0;
        for (var row : Reference.rows("germination-days.csv")) {
            double celsius = number(row, "soil_temp_C");
            Crop.Emergence line = fitted().get(row.get("crop"));
            if (line == null || !row.get("days_S01").matches("[0-9]+") || celsius < 10 || celsius > 30) {
                continue;
            }
            double days = number(row, "days_S01");
            if (Math.abs(ThermalTime.daysAt(line, celsius) - days) > 1 + 0.2 * days) {
                off.add(row.get("crop") + " at " + Math.round(celsius) + " C");
            }
            checked++;
        }

        assertThat(checked).isEqualTo(70);
        assertThat(off).isEqualTo(OFF_THE_LINE);
    }

    /** Onion, base 2.5 C and 80 C days to half germinated: 4 days at 22.5 C, 16 days at 7.5 C (thermal-time.csv, S48; its other rows are from memory). */
    @Test
    void days_followThePublishedOnion() {
        var onion = new Crop.Emergence(2.5, 80);

        assertThat(ThermalTime.daysAt(onion, 22.5)).isCloseTo(4, within(1e-9));
        assertThat(ThermalTime.daysAt(onion, 7.5)).isCloseTo(16, within(1e-9));
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
