package traytender.dashboard.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import traytender.config.site.Cell;
import traytender.ingest.nursery.score.Bounds;
import traytender.ingest.nursery.truth.Glances.Glance;
import traytender.ingest.nursery.truth.Glances.Spot;
import traytender.rules.cells.CellField;
import traytender.rules.cells.ProbeLevel;
import traytender.rules.view.CellEstimate;

/** How far the estimate of every cell is off, at probes left out one by one and at cells without a probe. <b>Not thread-safe.</b> */
final class CellErrors {
    /** Standard deviation of a probe's level, as for a common probe with its calibration; our choice. */
    private static final double SPREAD = 0.02;

    /** 80 percent of a normal lie within so many standard deviations. */
    private static final double EIGHTY = 1.2816;

    private final Sample leftOut = new Sample();
    private final Sample unprobed = new Sample();

    private static final class Sample {
        private final List<Double> errors = new ArrayList<>();
        private int inside;

        void add(double truth, CellEstimate estimate) {
            double error = Math.abs(estimate.moisture() - truth);
            errors.add(error);
            inside += error <= EIGHTY * estimate.spread() ? 1 : 0;
        }

        String line(String what) {
            double[] all = errors.stream().mapToDouble(Double::doubleValue).toArray();
            double square =
                    Arrays.stream(all).map(error -> error * error).average().orElse(Double.NaN);
            // Enough of them, evenly taken, for the bounds; they are not independent, so the bounds are narrower than
            // they should be.
            int every = 1 + errors.size() / 5000;
            Bounds median = Bounds.ofMedian(IntStream.range(0, errors.size())
                    .filter(i -> i % every == 0)
                    .mapToObj(errors::get)
                    .toList());
            Bounds share = Bounds.ofProportion(inside, errors.size());
            return String.format(
                    Locale.ROOT,
                    "%s: median error %.3f (95 %% %.3f to %.3f), root mean square %.3f, n %d; inside its 80 %%: %.3f (95 %% %.3f to %.3f)%n",
                    what,
                    Bounds.median(all),
                    median.low(),
                    median.high(),
                    Math.sqrt(square),
                    all.length,
                    (double) inside / Math.max(1, all.length),
                    share.low(),
                    share.high());
        }
    }

    void add(Glance glance) {
        if (glance.spots().size() < 2) {
            return;
        }
        for (Spot left : glance.spots()) {
            List<Spot> others =
                    glance.spots().stream().filter(spot -> spot != left).toList();
            leftOut.add(glance.water(left.cell()), field(glance, others).estimate(left.cell()));
        }
        CellField field = field(glance, glance.spots());
        List<Cell> probed = glance.spots().stream().map(Spot::cell).toList();
        field.estimates().stream()
                .filter(estimate -> !probed.contains(estimate.cell()))
                .forEach(estimate -> unprobed.add(glance.water(estimate.cell()), estimate));
    }

    private static CellField field(Glance glance, List<Spot> spots) {
        var levels = spots.stream()
                .map(spot -> new ProbeLevel(spot.cell(), spot.reads(), SPREAD))
                .toList();
        return CellField.moisture(glance.cells(), glance.mat(), levels);
    }

    String write() {
        return leftOut.line("cell map, a probe left out") + unprobed.line("cell map, cells without a probe");
    }
}
