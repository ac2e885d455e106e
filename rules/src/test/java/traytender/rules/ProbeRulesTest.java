package traytender.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static traytender.rules.TestBench.at;
import static traytender.rules.TestBench.drying;
import static traytender.rules.TestBench.step;

import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.journal.EntryKind;
import traytender.config.reading.Marks;
import traytender.config.site.Quantity;
import traytender.config.site.Zone;

/** What the rules say of probes, on clear-cut cases, and that a plant is never judged by a probe in trouble alone. */
class ProbeRulesTest {
    @Test
    void aProbeThatStops_isSilentAfterAnHour_andSpeaksAgain() {
        var bench = new TestBench().reads("T01-centre-moisture", hour -> hour > 4 && hour < 8 ? Double.NaN : 0.7);

        assertThat(bench.after(10, AlertKind.PROBE_SILENT)).singleElement().satisfies(alert -> {
            assertThat(alert.zone()).isEqualTo(Zone.CENTRE);
            assertThat(alert.opened()).isBetween(at(4.9), at(5.2));
            assertThat(alert.closed()).isBetween(at(8), at(8.1));
            assertThat(alert.probes()).containsExactly("T01-centre-moisture");
        });
    }

    @Test
    void aNightWithTheProgramOff_isNoProbesSilence() {
        var bench = new TestBench();
        for (String probe : List.of("T01", "T02", "T03")) {
            for (Quantity quantity : List.of(Quantity.MOISTURE, Quantity.TEMPERATURE)) {
                double usual = quantity == Quantity.MOISTURE ? 0.75 : 22;
                bench.all(probe, quantity, hour -> hour > 4 && hour < 14 ? Double.NaN : usual);
            }
        }
        bench.reads("propagation-air", hour -> hour > 4 && hour < 14 ? Double.NaN : 20)
                .reads("propagation-humidity", hour -> hour > 4 && hour < 14 ? Double.NaN : 60)
                .reads("propagation-light", hour -> hour > 4 && hour < 14 ? Double.NaN : 1)
                .reads("frame-air", hour -> hour > 4 && hour < 14 ? Double.NaN : 12)
                .reads("mat-1-power", hour -> hour > 4 && hour < 14 ? Double.NaN : 0)
                .reads("T01-battery", hour -> hour > 4 && hour < 14 ? Double.NaN : 80);

        assertThat(bench.after(20)).isEmpty();
    }

    @Test
    void aProbeNeverHeard_isWaiting_notSilent() {
        assertThat(new TestBench().reads("T01-centre-moisture", Double.NaN).after(20))
                .isEmpty();
    }

    @Test
    void aLivelyProbeThatFreezes_isStuck() {
        var healthy = new TestBench().reads("T01-centre-moisture", 0.6);
        var frozen = new FrozenBench(3);

        assertThat(healthy.after(12, AlertKind.PROBE_STUCK)).isEmpty();
        assertThat(frozen.alerts(AlertKind.PROBE_STUCK))
                .singleElement()
                .satisfies(alert -> assertThat(alert.opened()).isBetween(at(4.4), at(6)));
    }

    /** A bench whose centre moisture probe repeats one raw value from an hour on. */
    private record FrozenBench(double fromHour) {
        List<Alert> alerts(AlertKind kind) {
            var bench = new TestBench();
            var folder = bench.folder();
            var readings = bench.readings(12).stream()
                    .map(reading -> reading.probe().equals("T01-centre-moisture")
                                    && reading.timeMs() >= at(fromHour).toEpochMilli()
                            ? new traytender.config.reading.Reading(reading.probe(), reading.timeMs(), 0.61, 0.61, 0)
                            : reading)
                    .toList();
            return Replay.run(folder, folder.crops(), List.of(), (from, to, consumer) -> readings.forEach(consumer))
                    .stream()
                    .filter(alert -> alert.kind() == kind)
                    .toList();
        }
    }

    @Test
    void aProbeThatJumpsToAndFro_isJumping_andItsPlaceIsNotDry() {
        var bench = new TestBench()
                .reads("T01-centre-moisture", hour -> hour > 4 && Math.round(hour * 30) % 3 == 0 ? 0.2 : 0.7);

        List<Alert> alerts = bench.after(10);

        assertThat(alerts).extracting(Alert::kind).containsOnly(AlertKind.PROBE_JUMPING);
    }

    @Test
    void aLoneSpike_isNothing() {
        var bench = new TestBench().reads("T01-centre-moisture", hour -> Math.abs(hour - 4) < 0.017 ? 0.1 : 0.7);

        assertThat(bench.after(10)).isEmpty();
    }

    @Test
    void readingsThatCannotBe_areOutOfRange() {
        var bench = new TestBench()
                .marked("T01-centre-temperature", Marks.RANGE)
                .marked("T02-centre-temperature", Marks.SENSOR_ERROR);

        List<Alert> alerts = bench.after(8, AlertKind.PROBE_RANGE);

        assertThat(alerts).extracting(Alert::tray).containsExactlyInAnyOrder("T01", "T02");
    }

    @Test
    void countsWithoutACalibration_areSaidToBeThat_andNoPlantIsJudgedByThem() {
        List<Alert> alerts = new TestBench().reads("T01-centre-moisture", 1300).after(8);

        assertThat(alerts).singleElement().satisfies(alert -> {
            assertThat(alert.kind()).isEqualTo(AlertKind.PROBE_RANGE);
            assertThat(alert.urgency()).isEqualTo(Urgency.NOTE);
            assertThat(alert.says())
                    .contains("counts")
                    .contains("no calibration")
                    .doesNotContain("%");
            assertThat(alert.does()).startsWith("Calibrate it");
        });
    }

    @Test
    void aFirstReadingThatIsASpike_isNothing() {
        var bench = new TestBench().reads("T01-centre-moisture", hour -> hour < 0.05 ? 1.2 : 0.7);

        assertThat(bench.after(6)).isEmpty();
    }

    @Test
    void aThermometerBeyondItsRange_driesNoPlace_norIsItOddOnceItIsWell() {
        var bench = new TestBench()
                .all("T01", Quantity.MOISTURE, drying(0.9, 0.008))
                .reads("T01-centre-temperature", hour -> hour > 6 && hour < 20 ? 150 : 22);

        List<Alert> alerts = bench.after(32);

        assertThat(alerts).extracting(Alert::kind).containsOnly(AlertKind.PROBE_RANGE);
    }

    @Test
    void aProbeLiftedOut_isOdd_andItsPlaceIsNotDry() {
        var bench = new TestBench().reads("T01-centre-moisture", step(4, 0.7, 0.04));

        List<Alert> alerts = bench.after(10);

        assertThat(alerts).extracting(Alert::kind).containsOnly(AlertKind.PROBE_ODD);
        assertThat(alerts)
                .singleElement()
                .satisfies(alert -> assertThat(alert.opened()).isBetween(at(4), at(4.5)));
    }

    @Test
    void aProbePutBack_isWellAgain() {
        var bench = new TestBench().reads("T01-centre-moisture", step(6, step(4, 0.7, 0.04), hour -> 0.69));

        assertThat(bench.after(12)).singleElement().satisfies(alert -> {
            assertThat(alert.kind()).isEqualTo(AlertKind.PROBE_ODD);
            assertThat(alert.isOpen()).isFalse();
        });
    }

    @Test
    void aProbePutIntoAnotherCell_orIntoItsOwnAfterCalibration_beginsAnew() {
        for (int row : new int[] {6, 4}) {
            var bench = new TestBench()
                    .reads("T01-centre-moisture", step(4, 0.98, 0.65))
                    .puts("T01-centre-moisture", 4, "T01", row, 8);

            assertThat(bench.after(10, AlertKind.PROBE_ODD)).isEmpty();
        }
    }

    @Test
    void freshMixAfterPottingUp_isNoLiftedProbe() {
        var bench = new TestBench()
                .stage(traytender.config.crop.Stage.SEEDLING)
                .all("T01", Quantity.MOISTURE, step(4, 0.8, 0.55))
                .journal(4, "T01", EntryKind.POTTED_UP);

        assertThat(bench.after(10, AlertKind.PROBE_ODD)).isEmpty();
    }

    @Test
    void aRootProbeThatFallsToTheRoomsAir_hasComeOut() {
        var bench = new TestBench()
                .reads("mat-1-power", 1)
                .reads("propagation-air", 14)
                .all("T01", Quantity.TEMPERATURE, hour -> 25)
                .reads("T01-centre-temperature", step(4, 25, 14.5));

        List<Alert> alerts = bench.after(8);

        assertThat(alerts).extracting(Alert::kind).containsOnly(AlertKind.PROBE_ODD);
    }

    @Test
    void aReadingOfAWrongClock_andALowBattery_areToldAsNotes() {
        var bench = new TestBench().marked("T01-centre-moisture", Marks.CLOCK).reads("T01-battery", step(2, 80, 12));

        assertThat(bench.after(6)).extracting(Alert::kind).containsOnly(AlertKind.PROBE_CLOCK, AlertKind.BATTERY_LOW);
    }

    @Test
    void aDryPlaceWhoseProbeThenFallsSilent_isNotCalledDryForGood() {
        var bench = new TestBench().reads("T01-centre-moisture", hour -> hour < 4 ? 0.4 : Double.NaN);

        assertThat(bench.after(8, AlertKind.DRY))
                .singleElement()
                .satisfies(alert -> assertThat(alert.closed()).isBetween(at(4.9), at(5.4)));
    }

    @Test
    void drynessOfAnotherPlace_isStillTold_whileOneProbeIsInTrouble() {
        var bench = new TestBench()
                .reads("T01-centre-moisture", step(4, 0.7, 0.04))
                .reads("T01-edge-front-moisture", drying(0.48, 0.01));

        assertThat(bench.after(10, AlertKind.DRY))
                .singleElement()
                .satisfies(alert -> assertThat(alert.zone()).isEqualTo(Zone.EDGE_FRONT));
    }

    @Test
    void aProbeThatReadsMoreAfterEverySoak_isOdd_andANewCalibrationIsOffered() {
        var bench = soaked(8).reads("T01-centre-moisture", hour -> daily(hour) * (1 + 0.0018 * hour));

        assertThat(bench.after(8 * 24, AlertKind.PROBE_ODD)).singleElement().satisfies(alert -> {
            assertThat(alert.probes()).containsExactly("T01-centre-moisture");
            assertThat(alert.says()).contains("soaked, drained medium");
            assertThat(alert.opened()).isAfter(at(2 * 24));
        });
    }

    @Test
    void aTrayWhollySoakedLess_hasNoOddProbes() {
        var bench = soaked(8).all("T01", Quantity.MOISTURE, hour -> daily(hour) - (hour >= 72 ? 0.15 : 0));

        assertThat(bench.after(8 * 24, AlertKind.PROBE_ODD)).isEmpty();
    }

    @Test
    void aProbePutBackAfterTheWatering_isNotComparedWithWhatItReadInAir() {
        var bench = soaked(2)
                .all("T01", Quantity.MOISTURE, ProbeRulesTest::daily)
                .reads("T01-centre-moisture", hour -> hour > 20 && hour < 30 ? -0.05 : daily(hour));

        assertThat(bench.after(40))
                .extracting(Alert::kind)
                .doesNotContain(AlertKind.UNEVEN_DRYING, AlertKind.MISSED_WATERING);
    }

    @Test
    void aProbeThatWasSilentAtTheWatering_isNotCompared() {
        var bench = soaked(2)
                .all("T01", Quantity.MOISTURE, ProbeRulesTest::daily)
                .reads("T01-centre-moisture", hour -> hour > 14 && hour < 35 ? Double.NaN : daily(hour));

        assertThat(bench.after(45))
                .extracting(Alert::kind)
                .doesNotContain(AlertKind.UNEVEN_DRYING, AlertKind.MISSED_WATERING);
    }

    /** All of a bench's first tray watered through each morning, as the journal says. */
    private static TestBench soaked(int days) {
        var bench = new TestBench().all("T01", Quantity.MOISTURE, ProbeRulesTest::daily);
        for (int day = 1; day < days; day++) {
            bench.journal(24 * day, "T01", EntryKind.WATERED);
        }
        return bench;
    }

    /** Full at every whole day, a third of it gone by the next. */
    private static double daily(double hour) {
        return 1 - 0.33 * (hour % 24) / 24;
    }
}
