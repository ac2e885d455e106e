package traytender.rules.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.journal.Growing;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Zone;
import traytender.rules.TestBench;

/** A made-up tray that dries in a straight line: the hours beyond its lines follow from the line. */
class StaysTest {
    private static final String PROBE = "T01-centre-moisture";

    /** From 0.85 to 0.35 over twenty hours: 0.025 an hour. */
    private static final DoubleUnaryOperator DRYING = hour -> 0.85 - 0.025 * hour;

    private static List<Stay> stays(TestBench bench, Instant from, Instant to) {
        var folder = bench.folder();
        Growing growing = Growing.of(folder.site(), folder.crops(), bench.journal());
        Probe probe = folder.site().probe(PROBE).orElseThrow();
        List<Reading> readings = bench.readings(20).stream()
                .filter(reading -> reading.probe().equals(PROBE))
                .toList();
        return Stays.of(growing, probe, readings, from, to);
    }

    @Test
    void oneStage_isOneStay_withTheHoursBelowItsDryLine() {
        var bench = new TestBench().reads(PROBE, DRYING);

        assertThat(stays(bench, TestBench.START, TestBench.at(20)))
                .singleElement()
                .satisfies(stay -> {
                    assertThat(stay.tray()).isEqualTo("T01");
                    assertThat(stay.zone()).isEqualTo(Zone.CENTRE);
                    assertThat(stay.crop()).isEqualTo("tomato");
                    assertThat(stay.stage()).isEqualTo(Stage.GERMINATING);
                    assertThat(stay.highest()).isCloseTo(0.85, within(0.01));
                    assertThat(stay.lowest()).isCloseTo(0.35, within(0.01));
                    // The dry line of 0.45 is crossed at hour 16.
                    assertThat(stay.below().hours()).isCloseTo(4, within(0.05));
                    assertThat(stay.above().hours()).isZero();
                });
    }

    @Test
    void changeOfStage_cutsTheStay_andNothingIsCountedTwice() {
        var bench = new TestBench().reads(PROBE, DRYING).journal(17, "T01", EntryKind.STAGE, "stage=seedling");

        List<Stay> stays = stays(bench, TestBench.START, TestBench.at(20));

        assertThat(stays).extracting(Stay::stage).containsExactly(Stage.GERMINATING, Stage.SEEDLING);
        assertThat(stays.get(0).to()).isEqualTo(stays.get(1).from()).isEqualTo(TestBench.at(17));
        assertThat(stays.stream().mapToDouble(stay -> stay.below().hours()).sum())
                .isCloseTo(4, within(0.1));
    }

    @Test
    void timeAskedAbout_isTheTimeCounted() {
        var bench = new TestBench().reads(PROBE, DRYING);

        assertThat(stays(bench, TestBench.at(16), TestBench.at(18)))
                .singleElement()
                .satisfies(stay -> assertThat(stay.below().hours()).isCloseTo(2, within(0.05)));
        assertThat(stays(bench, TestBench.at(40), TestBench.at(50))).isEmpty();
    }
}
