package traytender.rules;

import static java.time.temporal.ChronoUnit.MINUTES;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.TestBench.at;
import static traytender.rules.TestBench.drying;
import static traytender.rules.TestBench.step;

import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.site.Quantity;
import traytender.config.site.Zone;

/** What the rules say of water, on clear-cut cases; limits are the test bench's own. */
class WaterRulesTest {
    @Test
    void aBenchWithNothingAmiss_isQuiet() {
        assertThat(new TestBench().after(40)).isEmpty();
    }

    @Test
    void aCentreBelowItsDryLine_isDryAfterTenMinutes_andNoLongerOnceWatered() {
        var bench = new TestBench()
                .reads("T01-centre-moisture", step(8, step(2, 0.5, 0.40), hour -> 0.9))
                .without("T01-centre-temperature");

        List<Alert> alerts = bench.after(20, AlertKind.DRY);

        assertThat(alerts).singleElement().satisfies(alert -> {
            assertThat(alert.tray()).isEqualTo("T01");
            assertThat(alert.zone()).isEqualTo(Zone.CENTRE);
            assertThat(alert.urgency()).isEqualTo(Urgency.NOW);
            assertThat(alert.opened()).isCloseTo(at(2.2), within(8, MINUTES));
            assertThat(alert.closed()).isCloseTo(at(8.1), within(10, MINUTES));
            assertThat(alert.value()).isCloseTo(0.40, within(0.01));
            assertThat(alert.limit()).isEqualTo(0.45);
            assertThat(alert.probes()).containsExactly("T01-centre-moisture");
            assertThat(alert.says()).contains("40 %").contains("45 %");
            assertThat(alert.does()).contains("Water");
            assertThat(alert.sowing()).isEqualTo("Copper Lantern");
        });
    }

    @Test
    void aCentreThatIsBackWithinTheClearMargin_staysDry() {
        var bench = new TestBench().reads("T01-centre-moisture", step(4, step(2, 0.5, 0.42), hour -> 0.465));

        assertThat(bench.after(10, AlertKind.DRY))
                .singleElement()
                .satisfies(alert -> assertThat(alert.isOpen()).isTrue());
    }

    @Test
    void aDipShorterThanLastingMinutes_isNotDry() {
        var bench = new TestBench().reads("T01-centre-moisture", hour -> hour > 2 && hour < 2.1 ? 0.40 : 0.5);

        assertThat(bench.after(10, AlertKind.DRY)).isEmpty();
    }

    @Test
    void veryDryPeat_isSoakedFromBelow_andNotFed() {
        var bench = new TestBench().reads("T01-centre-moisture", 0.15);

        assertThat(bench.after(2, AlertKind.DRY)).singleElement().satisfies(alert -> {
            assertThat(alert.does()).contains("Set the tray in water");
            assertThat(alert.does()).contains("Do not feed");
        });
    }

    @Test
    void aPlaceDryingTowardsItsLine_isAnnouncedAheadWithItsInterval() {
        var bench = new TestBench().all("T01", Quantity.MOISTURE, drying(0.75, 0.02));

        List<Alert> alerts = bench.after(13, AlertKind.DRYING_SOON);

        assertThat(alerts).extracting(Alert::zone).contains(Zone.CENTRE, Zone.EDGE_FRONT, Zone.CORNER_BACK_RIGHT);
        assertThat(alerts).allSatisfy(alert -> {
            assertThat(alert.forecast()).isNotNull();
            assertThat(alert.forecast().earliest()).isBefore(alert.forecast().expected());
            assertThat(alert.forecast().expected()).isBefore(alert.forecast().latest());
            assertThat(alert.opened()).isBefore(at(14));
        });
    }

    @Test
    void aPlaceFarFromItsLine_isNotAnnounced() {
        var bench = new TestBench().all("T01", Quantity.MOISTURE, drying(0.95, 0.004));

        assertThat(bench.after(20, AlertKind.DRYING_SOON)).isEmpty();
    }

    @Test
    void aCentreThatLosesTwiceAsMuch_driesUnevenly() {
        var bench = new TestBench()
                .all("T01", Quantity.MOISTURE, drying(0.95, 0.008))
                .reads("T01-centre-moisture", drying(0.95, 0.016));

        List<Alert> alerts = bench.after(24, AlertKind.UNEVEN_DRYING);

        assertThat(alerts).singleElement().satisfies(alert -> {
            assertThat(alert.zone()).isEqualTo(Zone.CENTRE);
            assertThat(alert.value()).isGreaterThan(1.6);
            assertThat(alert.limit()).isEqualTo(1.6);
        });
    }

    @Test
    void aTrayThatDriesAlikeEverywhere_isNotUneven() {
        var bench = new TestBench()
                .all("T01", Quantity.MOISTURE, drying(0.95, 0.010))
                .reads("T01-centre-moisture", drying(0.95, 0.012));

        assertThat(bench.after(30, AlertKind.UNEVEN_DRYING)).isEmpty();
    }

    @Test
    void aCornerThatTookNothingUp_wasMissed_within45Minutes() {
        var bench = new TestBench()
                .all("T01", Quantity.MOISTURE, step(8, 0.6, 0.98))
                .reads("T01-corner-back-right-moisture", 0.6)
                .journal(8, "T01", EntryKind.WATERED);

        assertThat(bench.after(12, AlertKind.MISSED_WATERING)).singleElement().satisfies(alert -> {
            assertThat(alert.zone()).isEqualTo(Zone.CORNER_BACK_RIGHT);
            assertThat(alert.opened()).isBetween(at(8.5), at(8.75));
        });
    }

    @Test
    void aMissedCorner_isSeenWithoutTheJournalToo_andClosesOnceItIsWatered() {
        var bench = new TestBench()
                .all("T01", Quantity.MOISTURE, step(8, 0.6, 0.98))
                .reads("T01-corner-back-right-moisture", step(10, 0.6, 0.95));

        assertThat(bench.after(14, AlertKind.MISSED_WATERING))
                .singleElement()
                .satisfies(alert -> assertThat(alert.closed()).isCloseTo(at(10.2), within(15, MINUTES)));
    }

    @Test
    void aWateringMeantForTheCentreOnly_missesNothing() {
        var bench = new TestBench()
                .reads("T01-centre-moisture", step(8, 0.6, 0.98))
                .journal(8, "T01", EntryKind.WATERED, "zones=centre");

        assertThat(bench.after(12, AlertKind.MISSED_WATERING)).isEmpty();
    }

    @Test
    void aWateringThatReachedAll_missesNothing() {
        var bench = new TestBench()
                .all("T01", Quantity.MOISTURE, step(8, 0.6, 0.98))
                .journal(8, "T01", EntryKind.WATERED);

        assertThat(bench.after(20, AlertKind.MISSED_WATERING)).isEmpty();
    }

    @Test
    void aTrayAboveItsWetLineForTwoDays_staysWet() {
        var bench = new TestBench().limit(LimitKey.WET_LINE, 0.88).all("T01", Quantity.MOISTURE, hour -> 0.93);

        List<Alert> alerts = bench.after(50, AlertKind.STAYING_WET);

        assertThat(alerts).hasSize(3);
        assertThat(alerts).allSatisfy(alert -> {
            assertThat(alert.opened()).isCloseTo(at(48), within(15, MINUTES));
            assertThat(alert.does()).contains("shade");
        });
    }

    @Test
    void aWetTrayUnderADome_isRight() {
        var bench = new TestBench()
                .limit(LimitKey.WET_LINE, 0.88)
                .all("T01", Quantity.MOISTURE, hour -> 0.93)
                .journal(1, "T01", EntryKind.COVERED);

        assertThat(bench.after(60, AlertKind.STAYING_WET)).isEmpty();
    }

    @Test
    void theSoakAfterPottingUp_isRight() {
        var bench = new TestBench()
                .stage(Stage.SEEDLING)
                .limit(LimitKey.WET_LINE, 0.88)
                .limit(LimitKey.WET_HOURS, 10)
                .all("T01", Quantity.MOISTURE, step(1, 0.5, 0.95))
                .journal(1, "T01", EntryKind.POTTED_UP);

        assertThat(bench.after(24, AlertKind.STAYING_WET)).isEmpty();
    }
}
