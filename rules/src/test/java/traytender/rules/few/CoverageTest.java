package traytender.rules.few;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import traytender.config.crop.Stage;
import traytender.config.site.Cell;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.Sowing;
import traytender.config.site.Zone;
import traytender.rules.TestBench;
import traytender.rules.view.CellEstimate;
import traytender.rules.view.SowingView;
import traytender.rules.view.TrayView;
import traytender.rules.view.ZoneView;

/** Who speaks for whom, how surely, and where the next probe helps. */
class CoverageTest {
    private static final Instant NOW = Instant.parse("2026-03-14T12:00:00Z");
    private static final Cells CELLS = new Cells(2, 4);

    private final List<TrayView> trays = new ArrayList<>();

    private TrayView tray(String id, String bench, String crop, double moisture, @Nullable Instant watered) {
        var sowing = new Sowing(new CellBlock(1, 2, 1, 4), crop, "Copper Lantern", null, null);
        List<ZoneView> zones = Double.isNaN(moisture)
                ? List.of()
                : List.of(new ZoneView(
                        Zone.CORNER_FRONT_LEFT,
                        moisture,
                        0.02,
                        Double.NaN,
                        Double.NaN,
                        null,
                        0.5,
                        0.95,
                        Double.NaN,
                        List.of(id + "-moisture"),
                        true));
        var cell = new CellEstimate(new Cell(1, 1), Zone.CORNER_FRONT_LEFT, moisture, 0.03);
        return new TrayView(
                id,
                "propagation",
                bench,
                null,
                CELLS,
                "peat-perlite",
                List.of(new SowingView(
                        sowing,
                        Stage.SEEDLING,
                        Instant.MIN,
                        new TestBench().folder().crops().get("tomato").limits(Stage.SEEDLING),
                        null)),
                zones,
                List.of(cell),
                watered,
                Double.NaN,
                NOW);
    }

    private CoverageTest with(String id, String bench, String crop, double moisture, @Nullable Instant watered) {
        trays.add(tray(id, bench, crop, moisture, watered));
        return this;
    }

    private CoverageTest blank(String id, String bench, String crop) {
        return with(id, bench, crop, Double.NaN, null);
    }

    @Test
    void aTrayWithoutAProbe_isJudgedFromTheNearestLikeOne_withMoreDoubt() {
        with("T01", "north", "tomato", 0.9, NOW)
                .with("T02", "north", "tomato", 0.7, NOW)
                .blank("T03", "north", "tomato");

        Coverage coverage = Coverage.of(trays, Set.of());

        assertThat(coverage.probed()).containsExactly("T01", "T02");
        assertThat(coverage.blind()).isEmpty();
        assertThat(coverage.judged("T03").orElseThrow()).satisfies(judged -> {
            assertThat(judged.from()).isEqualTo("T02");
            assertThat(judged.moisture()).isEqualTo(0.7);
            // By hand: the two like trays' 0.9 and 0.7 lie 0.1414 apart as a standard deviation.
            assertThat(judged.spread()).isCloseTo(Math.sqrt(0.02 * 0.02 + 0.02 + 0.045 * 0.045), within(1e-9));
            assertThat(judged.cells())
                    .singleElement()
                    .satisfies(cell -> assertThat(cell.spread()).isGreaterThan(0.14));
        });
    }

    @Test
    void oneLikeTray_isNotTakenForMoreThanItTells() {
        with("T01", "north", "tomato", 0.8, null).blank("T02", "north", "tomato");

        assertThat(Coverage.of(trays, Set.of()).judged("T02").orElseThrow().spread())
                .isCloseTo(Math.sqrt(0.02 * 0.02 + 0.06 * 0.06 + 0.03 * 0.03), within(1e-9));
    }

    @Test
    void anotherBench_anotherCrop_orAnotherWatering_speaksForNobody() {
        with("T01", "north", "tomato", 0.8, NOW.minus(Duration.ofHours(20)))
                .blank("T02", "south", "tomato")
                .blank("T03", "north", "pepper")
                .with("T04", "north", "tomato", Double.NaN, NOW);

        Coverage coverage = Coverage.of(trays, Set.of());

        assertThat(coverage.judged()).isEmpty();
        assertThat(coverage.blind()).containsExactly("T02", "T03", "T04");
    }

    @Test
    void theNextProbe_goesWhereItTellsOfMostTraysThatNothingTellsOf() {
        with("T01", "north", "tomato", 0.8, null)
                .blank("T02", "north", "tomato")
                .blank("T03", "north", "tomato");
        blank("T04", "south", "basil").blank("T05", "south", "lettuce").blank("T06", "south", "lettuce");

        assertThat(Coverage.of(trays, Set.of()).next())
                .isEqualTo(new Coverage.Advice("T06", List.of("T05", "T06"), true));
    }

    @Test
    void whereAllAreJudged_theNextProbeGoesToTheMostThatBorrow_andNowhereWhenAllHaveOne() {
        with("T01", "north", "tomato", 0.8, null).blank("T02", "north", "tomato");

        assertThat(Coverage.of(trays, Set.of()).next()).isEqualTo(new Coverage.Advice("T02", List.of("T02"), false));
        assertThat(Coverage.of(trays.subList(0, 1), Set.of()).next()).isNull();
    }

    @Test
    void aTrayOnALoadCell_isWeighedAndNeedsNoOther() {
        with("T01", "north", "tomato", 0.8, null).blank("T02", "north", "tomato");

        assertThat(Coverage.of(trays, Set.of("T02")).probed()).containsExactly("T01", "T02");
    }
}
