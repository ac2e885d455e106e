package traytender.rules;

import static java.time.temporal.ChronoUnit.MINUTES;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.TestBench.at;
import static traytender.rules.TestBench.step;

import org.junit.jupiter.api.Test;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.crop.LimitKey;
import traytender.config.journal.EntryKind;

/**
 * What the rules say of a room's air, on clear-cut cases. On 10 March 2026 the sun sets in Dublin at about 18:20 and rises at
 * about 06:47 (commons-suncalc).
 */
class AirRulesTest {
    @Test
    void aColdNight_isTold() {
        var bench = new TestBench().reads("propagation-air", hour -> hour > 20 && hour < 24 ? 6 : 15);

        assertThat(bench.after(28, AlertKind.NIGHT_COLD)).singleElement().satisfies(alert -> {
            assertThat(alert.room()).isEqualTo("propagation");
            assertThat(alert.zone()).isNull();
            assertThat(alert.opened()).isCloseTo(at(20.2), within(6, MINUTES));
            assertThat(alert.closed()).isCloseTo(at(24.3), within(6, MINUTES));
        });
    }

    @Test
    void aColdMorningAfterSunrise_isNoColdNight() {
        var bench = new TestBench().reads("propagation-air", hour -> hour > 8 && hour < 12 ? 6 : 15);

        assertThat(bench.after(16, AlertKind.NIGHT_COLD)).isEmpty();
    }

    @Test
    void hotAir_isTold_aDoorOpenForThreeMinutesIsNot() {
        var hot = new TestBench().reads("propagation-air", step(14, step(12, 25, 36), hour -> 25));
        var door = new TestBench().reads("propagation-air", hour -> hour > 12 && hour < 12.05 ? 36 : 25);

        assertThat(hot.after(16, AlertKind.AIR_HOT))
                .singleElement()
                .satisfies(alert -> assertThat(alert.value()).isCloseTo(36, within(0.3)));
        assertThat(door.after(16, AlertKind.AIR_HOT)).isEmpty();
    }

    @Test
    void aClearNightOutdoors_isAFrostRisk_hoursBeforeTheFrost() {
        // Brunt's square root of time after sunset, down to -3 C at sunrise.
        var bench = new TestBench()
                .reads("frame-air", hour -> hour < 18.3 ? 9 : 9 - 12 * Math.sqrt((hour - 18.3) / 12.4))
                .limit(LimitKey.AIR_NIGHT_COLD, -8);

        assertThat(bench.after(22, AlertKind.FROST_RISK))
                .singleElement()
                .satisfies(alert -> assertThat(alert.urgency()).isEqualTo(Urgency.TODAY));
        assertThat(bench.after(29, AlertKind.FROST_RISK)).singleElement().satisfies(alert -> {
            assertThat(alert.room()).isEqualTo("cold-frame");
            assertThat(alert.opened()).isBefore(at(21));
            assertThat(alert.urgency())
                    .as("the air itself came to the frost limit")
                    .isEqualTo(Urgency.NOW);
            assertThat(alert.says()).contains("leaves run colder").doesNotContain("rough");
        });
    }

    @Test
    void aColdAfternoonThatFallsFast_isARoughFrostRisk_beforeDusk() {
        var bench = new TestBench()
                .reads(
                        "frame-air",
                        hour -> hour < 14
                                ? 7
                                : hour < 18.3 ? 7 - (hour - 14) : 2.7 - 5 * Math.sqrt((hour - 18.3) / 12.4))
                .limit(LimitKey.AIR_NIGHT_COLD, -8);

        assertThat(bench.after(29, AlertKind.FROST_RISK)).singleElement().satisfies(alert -> {
            assertThat(alert.opened()).isBetween(at(16.2), at(17));
            assertThat(alert.says())
                    .startsWith("A rough estimate")
                    .contains("give or take")
                    .contains("leaves run colder");
            assertThat(alert.does()).contains("before dark");
        });
    }

    @Test
    void anOvercastEvening_thatHardlyCools_isNoFrostRisk() {
        var bench = new TestBench()
                .reads("frame-air", hour -> hour < 14 ? 9 : Math.max(6, 9 - 0.3 * (hour - 14)))
                .limit(LimitKey.AIR_NIGHT_COLD, -8);

        assertThat(bench.after(29, AlertKind.FROST_RISK)).isEmpty();
    }

    @Test
    void aMildNightOutdoors_isNone() {
        var bench = new TestBench()
                .reads("frame-air", hour -> hour < 18.3 ? 15 : 15 - 5 * Math.sqrt((hour - 18.3) / 12.4))
                .limit(LimitKey.AIR_NIGHT_COLD, -8);

        assertThat(bench.after(29, AlertKind.FROST_RISK)).isEmpty();
    }

    @Test
    void lampsThatStayDark_areTold_theNightIsNot() {
        var bench = new TestBench().reads("propagation-light", hour -> hour >= 6 && hour < 10 ? 1 : 0);

        assertThat(bench.after(26, AlertKind.LIGHT_OUT)).singleElement().satisfies(alert -> {
            assertThat(alert.opened()).isBetween(at(10), at(10.5));
            assertThat(alert.closed()).isCloseTo(at(22), within(10, MINUTES));
        });
    }

    @Test
    void dampAirForEightHours_isTold() {
        var bench = new TestBench().reads("propagation-humidity", step(2, 60, 94));

        assertThat(bench.after(14, AlertKind.DAMP_AIR))
                .singleElement()
                .satisfies(alert -> assertThat(alert.opened()).isCloseTo(at(10.2), within(10, MINUTES)));
        assertThat(new TestBench()
                        .reads("propagation-humidity", hour -> hour % 8 < 5 ? 94 : 70)
                        .after(40, AlertKind.DAMP_AIR))
                .isEmpty();
    }

    @Test
    void dampAirUnderDomes_isRight() {
        var bench = new TestBench()
                .reads("propagation-humidity", 95)
                .journal(0.1, "T01", EntryKind.COVERED)
                .journal(0.1, "T02", EntryKind.COVERED);

        assertThat(bench.after(20, AlertKind.DAMP_AIR)).isEmpty();
    }
}
