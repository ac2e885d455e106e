package traytender.rules.few;

import java.util.Collection;
import java.util.List;
import java.util.Optional;
import traytender.config.reading.Reading;
import traytender.config.site.Calibration;
import traytender.config.site.Place;
import traytender.config.site.Quantity;
import traytender.rules.view.CellEstimate;
import traytender.rules.view.ProbeHealth;
import traytender.rules.view.ProbeView;
import traytender.rules.view.TrayView;

/**
 * Moisture of a whole tray by its weight on a load cell, put together with what its probes make of all its cells: the mean weighted
 * by the inverse of the variances, its spread {@code 1 / sqrt(sum 1/s²)}, widened by the Birge ratio {@code sqrt(chi² / (n - 1))} where
 * the two disagree by more than their doubt (R. T. Birge, Phys. Rev. 40, 1932, 207; from memory).
 *
 * <p>Doubts: of the weight {@value #BY_WEIGHT}, for plants that grow count as water and a load cell drifts with warmth; our choice,
 * common practice, no source. Of the probes' mean the mean spread of the cells, since one probe's error is in all of them.
 *
 * @param moisture fraction of container capacity
 * @param spread standard deviation of {@code moisture}
 * @param byWeight by the load cell alone
 * @param byProbes by the probes alone; NaN without any
 * @param disagree whether the two lie more than three of their standard deviations apart
 */
public record WholeTray(double moisture, double spread, double byWeight, double byProbes, boolean disagree) {
    private static final double BY_WEIGHT = 0.05;
    private static final double FAR = 3;

    /** Of a tray and all probes of the site; empty without a load cell that is well and knows the tray dry and drained. */
    public static Optional<WholeTray> of(TrayView tray, Collection<ProbeView> probes) {
        for (ProbeView probe : probes) {
            Reading last = probe.last();
            if (last != null && weighs(probe, last, tray.id())) {
                return Optional.of(together(last.value(), tray.estimates()));
            }
        }
        return Optional.empty();
    }

    private static boolean weighs(ProbeView view, Reading last, String tray) {
        var probe = view.probe();
        boolean knowsTheTray = probe.calibration()
                .at(last.time())
                .filter(Calibration.Weight.class::isInstance)
                .isPresent();
        return probe.measures() == Quantity.WEIGHT
                && view.health() == ProbeHealth.WELL
                && knowsTheTray
                && probe.at()
                        .at(last.time())
                        .filter(new Place.AtTray(tray)::equals)
                        .isPresent();
    }

    private static WholeTray together(double weight, List<CellEstimate> estimates) {
        List<CellEstimate> known = estimates.stream()
                .filter(cell -> !Double.isNaN(cell.moisture()))
                .toList();
        if (known.isEmpty()) {
            return new WholeTray(weight, BY_WEIGHT, weight, Double.NaN, false);
        }
        double probes =
                known.stream().mapToDouble(CellEstimate::moisture).average().orElseThrow();
        double doubt =
                known.stream().mapToDouble(CellEstimate::spread).average().orElseThrow();
        double ofWeight = 1 / (BY_WEIGHT * BY_WEIGHT);
        double ofProbes = 1 / (doubt * doubt);
        double mean = (ofWeight * weight + ofProbes * probes) / (ofWeight + ofProbes);
        double apart = Math.abs(weight - probes) / Math.hypot(BY_WEIGHT, doubt);
        double spread = Math.max(1, apart) / Math.sqrt(ofWeight + ofProbes);
        return new WholeTray(mean, spread, weight, probes, apart > FAR);
    }
}
