package traytender.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static traytender.rules.TestBench.at;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.site.Quantity;

/** What the rules say of potting up, moving, feeding and planting out, on clear-cut cases. */
class CalendarRulesTest {
    @Test
    void aTrayMovedADayAfterPottingUp_isToldToWait_untilItHasRecovered() {
        var bench = new TestBench()
                .stage(Stage.SEEDLING)
                .journal(2, "T01", EntryKind.POTTED_UP)
                .journal(26, "T01", EntryKind.MOVED, "to=cold-frame");

        assertThat(bench.after(80, AlertKind.MOVE_WAIT)).singleElement().satisfies(alert -> {
            assertThat(alert.opened()).isBetween(at(26), at(26.1));
            assertThat(alert.closed()).isBetween(at(74), at(76));
        });
    }

    @Test
    void aTrayMovedLater_needNotWait() {
        var bench = new TestBench()
                .stage(Stage.SEEDLING)
                .journal(2, "T01", EntryKind.POTTED_UP)
                .journal(80, "T01", EntryKind.MOVED, "to=cold-frame");

        assertThat(bench.after(84, AlertKind.MOVE_WAIT)).isEmpty();
    }

    @Test
    void aTrayFedADayAfterPottingUp_isToldToWait() {
        var bench = new TestBench()
                .stage(Stage.SEEDLING)
                .journal(2, "T01", EntryKind.POTTED_UP)
                .journal(26, "T01", EntryKind.FED);
        var before = new TestBench()
                .stage(Stage.SEEDLING)
                .journal(1, "T01", EntryKind.FED)
                .journal(2, "T01", EntryKind.POTTED_UP);

        assertThat(bench.after(30, AlertKind.FEED_WAIT)).hasSize(1);
        assertThat(before.after(30, AlertKind.FEED_WAIT)).isEmpty();
    }

    @Test
    void trueLeavesDueByWarmth_askForPottingUp() {
        // 22 C over a base of 8 C is 14 degree days a day: 20 are reached after 34 hours.
        var bench = new TestBench().trueLeavesAfter(20).journal(1, "T01", EntryKind.EMERGED);

        assertThat(bench.after(48, AlertKind.POT_UP_DUE)).singleElement().satisfies(alert -> {
            assertThat(alert.tray()).isEqualTo("T01");
            assertThat(alert.opened()).isBetween(at(34), at(37));
        });
    }

    @Test
    void cellsThatDryInLessThanADay_askForPottingUp_butNotForCotyledons() {
        var leaves =
                new TestBench().stage(Stage.GROWING_ON).all("T01", Quantity.MOISTURE, TestBench.drying(0.95, 0.04));
        var cotyledons = new TestBench()
                .trueLeavesAfter(5000)
                .all("T01", Quantity.MOISTURE, TestBench.drying(0.95, 0.04))
                .journal(0.5, "T01", EntryKind.EMERGED);

        assertThat(leaves.after(20, AlertKind.POT_UP_DUE))
                .singleElement()
                .satisfies(alert -> assertThat(alert.tray()).isEqualTo("T01"));
        assertThat(cotyledons.after(20, AlertKind.POT_UP_DUE)).isEmpty();
    }

    @Test
    void seedlingsOfUnknownAge_askForPottingUpByTheirPlugs_untilItIsDone() {
        // The site file calls them seedlings and nobody tells since when; watered each morning, dry by night.
        DoubleUnaryOperator daily = hour -> Math.max(0.05, 1 - 0.04 * Math.max(0, (hour - 1) % 24));
        var bench = new TestBench()
                .trueLeavesAfter(5000)
                .stage(Stage.SEEDLING)
                .all("T01", Quantity.MOISTURE, daily)
                .journal(1, "T01", EntryKind.WATERED)
                .journal(25, "T01", EntryKind.WATERED)
                .journal(49, "T01", EntryKind.WATERED)
                .journal(60, "T01", EntryKind.POTTED_UP);

        assertThat(bench.after(64, AlertKind.POT_UP_DUE)).singleElement().satisfies(alert -> {
            assertThat(alert.opened()).isBefore(at(20));
            assertThat(alert.closed()).isBetween(at(60), at(61.1));
        });
    }

    @Test
    void aTrayHardenedForAWeekPastTheLastFrost_mayBePlantedOut() {
        // The bench's last frost is 12 March and the crop's week is that one; a week from 10 March 01:00 is 17 March.
        var bench = new TestBench().stage(Stage.GROWING_ON).journal(1, "T01", EntryKind.HARDENING);

        assertThat(bench.after(172, AlertKind.PLANT_OUT_READY))
                .singleElement()
                .satisfies(alert -> assertThat(alert.opened()).isBetween(at(168.9), at(169.5)));
    }

    @Test
    void aPlantedOutTray_isNoLongerWatched() {
        var bench = new TestBench()
                .reads("T01-centre-moisture", hour -> hour < 4 ? 0.7 : 0.2)
                .journal(3, "T01", EntryKind.PLANTED_OUT);

        assertThat(bench.after(10, AlertKind.DRY)).isEmpty();
    }

    @Test
    void readyToPlantOut_tellsOfNightsAndMedium_andWaitsForAMilderOne() {
        // The tray hardens in the frame, whose nights are clear: it says how cold they were and will be.
        DoubleUnaryOperator frame = hour -> {
            double since = (hour + 24 - 18.4) % 24;
            return since < 12.3 ? 6 - 8 * Math.sqrt(since / 12.3) : Math.min(10, -2 + 3 * (since - 12.3));
        };
        var bench = new TestBench()
                .stage(Stage.GROWING_ON)
                .reads("frame-air", frame)
                .all("T01", Quantity.TEMPERATURE, hour -> 9)
                .journal(20, "T01", EntryKind.MOVED, "to=cold-frame")
                .journal(20.1, "T01", EntryKind.HARDENING);

        assertThat(bench.after(190, AlertKind.PLANT_OUT_READY)).singleElement().satisfies(alert -> {
            assertThat(alert.tray()).isEqualTo("T01");
            assertThat(alert.says())
                    .contains("coldest night outdoors came to -2")
                    .contains("medium is at");
            assertThat(alert.says()).contains("coming night may fall to");
            assertThat(alert.does()).startsWith("Wait for a milder night");
        });
    }

    @Test
    void readyToPlantOut_inColdGround_waitsForTheGround() {
        var bench = new TestBench()
                .stage(Stage.GROWING_ON)
                .all("T01", Quantity.TEMPERATURE, hour -> 12)
                .journal(1, "T01", EntryKind.HARDENING);

        assertThat(bench.after(172, AlertKind.PLANT_OUT_READY))
                .singleElement()
                .satisfies(alert -> assertThat(alert.does()).startsWith("Wait until the ground is warmer"));
    }
}
