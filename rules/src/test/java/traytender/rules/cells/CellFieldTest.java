package traytender.rules.cells;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.site.Cell;
import traytender.config.site.Cells;

/** The properties of kriging; the leave-one-out formula against doing it by hand. */
class CellFieldTest {
    private static final Cells TRAY = new Cells(8, 16);
    private static final List<ProbeLevel> PROBES = List.of(
            new ProbeLevel(new Cell(4, 8), 0.50, 0.003),
            new ProbeLevel(new Cell(8, 16), 0.70, 0.003),
            new ProbeLevel(new Cell(4, 1), 0.62, 0.003));

    @Test
    void field_isPinnedAtTheProbes_andLessSureAwayFromThem() {
        var field = CellField.moisture(TRAY, true, PROBES);

        for (ProbeLevel probe : PROBES) {
            assertThat(field.estimate(probe.cell()).moisture()).isCloseTo(probe.level(), within(0.003));
            assertThat(field.estimate(probe.cell()).spread()).isLessThan(0.0031);
        }
        assertThat(field.estimates()).hasSize(128);
        assertThat(field.estimates()).allSatisfy(cell -> {
            assertThat(cell.moisture()).isBetween(0.40, 0.80);
            assertThat(cell.spread()).isBetween(0.0, 0.12);
        });
    }

    @Test
    void unseenCorner_isTakenForLikeTheSeenOne_ratherThanLikeTheCentre() {
        double corner =
                CellField.moisture(TRAY, true, PROBES).estimate(new Cell(8, 1)).moisture();

        assertThat(corner).isGreaterThan(0.60);
    }

    @Test
    void evenTray_isEvenEverywhere() {
        var even = PROBES.stream()
                .map(probe -> new ProbeLevel(probe.cell(), 0.6, 0.003))
                .toList();

        assertThat(CellField.moisture(TRAY, true, even).estimates())
                .allSatisfy(cell -> assertThat(cell.moisture()).isCloseTo(0.6, within(1e-9)));
    }

    @Test
    void leaveOneOut_isWhatLeavingOneOutGives() {
        var errors = CellField.moisture(TRAY, false, PROBES).leaveOneOutErrors();
        for (int i = 0; i < PROBES.size(); i++) {
            var others = new ArrayList<>(PROBES);
            others.remove(i);
            double estimate = CellField.moisture(TRAY, false, others)
                    .estimate(PROBES.get(i).cell())
                    .moisture();
            assertThat(errors.get(i)).isCloseTo(estimate - PROBES.get(i).level(), within(1e-9));
        }
    }

    @Test
    void nextProbe_belongsAwayFromTheOthers() {
        Cell next = CellField.moisture(TRAY, false, PROBES).bestNextCell().orElseThrow();

        assertThat(PROBES)
                .allSatisfy(probe -> assertThat(probe.cell().distanceTo(next)).isGreaterThan(2));
    }

    @Test
    void noProbe_isNothingKnown() {
        var field = CellField.moisture(TRAY, true, List.of());

        assertThat(field.estimate(new Cell(1, 1)).moisture()).isNaN();
        assertThat(field.bestNextCell()).isEmpty();
        assertThat(field.leaveOneOutErrors()).isEmpty();
    }

    @Test
    void twoProbesInOneCell_areBothBelievedHalf() {
        var field = CellField.moisture(
                TRAY,
                false,
                List.of(new ProbeLevel(new Cell(4, 8), 0.50, 0.01), new ProbeLevel(new Cell(4, 8), 0.60, 0.01)));

        assertThat(field.estimate(new Cell(4, 8)).moisture()).isCloseTo(0.55, within(1e-6));
    }
}
