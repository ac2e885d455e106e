package traytender.rules.few;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Zone;
import traytender.rules.view.CellEstimate;
import traytender.rules.view.ProbeHealth;
import traytender.rules.view.ProbeView;
import traytender.rules.view.TrayView;

/** A tray's weight and its probes, put together by their doubts; figures worked out by hand. */
class WholeTrayTest {
    private static final Instant NOW = Instant.parse("2026-03-14T12:00:00Z");

    private static TrayView tray(CellEstimate... cells) {
        return new TrayView(
                "T01",
                "propagation",
                null,
                null,
                new Cells(1, 2),
                "peat-perlite",
                List.of(),
                List.of(),
                List.of(cells),
                null,
                Double.NaN,
                NOW);
    }

    private static CellEstimate cell(int column, double moisture, double spread) {
        return new CellEstimate(new Cell(1, column), Zone.EDGE_FRONT, moisture, spread);
    }

    private static ProbeView loadCell(String tray, Calibration calibration, ProbeHealth health, double value) {
        var probe = new Probe(
                "T01-weight",
                Quantity.WEIGHT,
                Dated.always(new Place.AtTray(tray)),
                new Binding.Text("alder/T01/weight", Map.of()),
                Dated.always(calibration),
                null);
        return new ProbeView(probe, new Reading("T01-weight", NOW.toEpochMilli(), value, 2400, Marks.NONE), health);
    }

    private static ProbeView loadCell(double moisture) {
        return loadCell("T01", new Calibration.Weight(900, 3400), ProbeHealth.WELL, moisture);
    }

    @Test
    void equalDoubts_giveTheMiddle_withLessDoubtThanEither() {
        var whole = WholeTray.of(tray(cell(1, 0.62, 0.05), cell(2, 0.66, 0.05)), List.of(loadCell(0.60)))
                .orElseThrow();

        assertThat(whole.byProbes()).isCloseTo(0.64, within(1e-9));
        assertThat(whole.moisture()).isCloseTo(0.62, within(1e-9));
        assertThat(whole.spread()).isCloseTo(0.05 / Math.sqrt(2), within(1e-9));
        assertThat(whole.disagree()).isFalse();
    }

    @Test
    void theSurerOneCountsMore_andCellsThatNoProbeTellsOfCountForNothing() {
        var whole = WholeTray.of(tray(cell(1, 0.70, 0.10), cell(2, Double.NaN, Double.NaN)), List.of(loadCell(0.60)))
                .orElseThrow();

        // Inverse variances 400 and 100: (4 * 0.60 + 1 * 0.70) / 5.
        assertThat(whole.moisture()).isCloseTo(0.62, within(1e-9));
    }

    @Test
    void aTrayWhoseWeightAndProbesDisagree_isInMoreDoubt_notLess() {
        var whole = WholeTray.of(tray(cell(1, 0.90, 0.05), cell(2, 0.90, 0.05)), List.of(loadCell(0.40)))
                .orElseThrow();

        assertThat(whole.disagree()).isTrue();
        // 0.5 apart with a joint doubt of 0.0707: the Birge ratio is 7.07, the spread 0.25.
        assertThat(whole.spread()).isCloseTo(0.25, within(1e-9));
    }

    @Test
    void withoutAProbe_theWeightStandsAlone() {
        var whole = WholeTray.of(tray(cell(1, Double.NaN, Double.NaN)), List.of(loadCell(0.55)))
                .orElseThrow();

        assertThat(whole.moisture()).isEqualTo(0.55);
        assertThat(whole.spread()).isEqualTo(0.05);
        assertThat(whole.byProbes()).isNaN();
    }

    @Test
    void aCellUnderAnotherTray_orOneThatDoesNotKnowItDryAndDrained_orIsInTrouble_tellsNothing() {
        var weight = new Calibration.Weight(900, 3400);

        assertThat(WholeTray.of(tray(), List.of(loadCell("T02", weight, ProbeHealth.WELL, 0.5))))
                .isEmpty();
        assertThat(WholeTray.of(tray(), List.of(loadCell("T01", new Calibration.None(), ProbeHealth.WELL, 2400))))
                .isEmpty();
        assertThat(WholeTray.of(tray(), List.of(loadCell("T01", weight, ProbeHealth.SILENT, 0.5))))
                .isEmpty();
    }
}
