package traytender.rules.bench;

import java.util.ArrayList;
import java.util.List;
import traytender.rules.air.MoistAir;
import traytender.rules.drying.AirPull;
import traytender.rules.drying.DayCourse;

/**
 * How hard the air around one tray draws water, now and in the hours to come: vapour pressure deficits from the room's air
 * temperature and humidity. Without a humidity probe the vapour is taken for {@value #USUAL_SHARE} of saturation at the mean
 * temperature of the last day, since a room's vapour changes slowly and its temperature does not; without an air probe the root
 * zone's temperature stands for the air's. <b>Not thread-safe.</b>
 */
final class TrayAir {
    /** Relative humidity of a propagation room at its mean temperature; our choice. */
    private static final double USUAL_SHARE = 0.6;
    /** Even saturated air lets some water go: leaves and plugs are warmer than it in the light; our choice. */
    private static final double LEAST = 0.05;

    private final DayCourse warmth;
    private final DayCourse leaf;
    private final List<DayCourse> mediums;
    private double vapour = Double.NaN;

    /** Nothing known yet of the air, around a tray with so many root probes. */
    TrayAir(int roots) {
        this(new DayCourse(), new DayCourse(), new ArrayList<>());
        for (int i = 0; i < roots; i++) {
            mediums.add(new DayCourse());
        }
    }

    private TrayAir(DayCourse warmth, DayCourse leaf, List<DayCourse> mediums) {
        this.warmth = warmth;
        this.leaf = leaf;
        this.mediums = mediums;
    }

    TrayAir copy() {
        var copy = new TrayAir(
                warmth.copy(),
                leaf.copy(),
                mediums.stream().map(DayCourse::copy).toList());
        copy.vapour = vapour;
        return copy;
    }

    /**
     * Takes what is so at a minute.
     *
     * @param airC air in C; NaN when unknown
     * @param humidity relative, percent; NaN when unknown
     * @param roots root probes, in their order
     */
    void note(long minuteMs, double airC, double humidity, List<RootSpot> roots, long listenedMinutes) {
        double warm = Double.isNaN(airC) ? meanRoot(roots, listenedMinutes) : airC;
        if (Double.isNaN(warm)) {
            return;
        }
        warmth.note(minuteMs, warm);
        vapour = Double.isNaN(humidity)
                ? USUAL_SHARE * MoistAir.saturationKpa(warmth.mean())
                : MoistAir.vapourKpa(warm, humidity);
        leaf.note(minuteMs, pull(warm));
        for (int i = 0; i < roots.size(); i++) {
            if (roots.get(i).isTrusted(listenedMinutes)) {
                mediums.get(i).note(minuteMs, pull(roots.get(i).value()));
            }
        }
    }

    private double pull(double celsius) {
        return Math.max(LEAST, (MoistAir.saturationKpa(celsius) - vapour) / AirPull.USUAL_KPA);
    }

    private static double meanRoot(List<RootSpot> roots, long listenedMinutes) {
        return roots.stream()
                .filter(root -> root.isTrusted(listenedMinutes))
                .mapToDouble(RootSpot::value)
                .average()
                .orElse(Double.NaN);
    }

    /**
     * The pull at a place of the tray.
     *
     * @param root index of the root probe that stands for it; -1 for none, when its medium is taken to be as warm as the air
     */
    AirPull at(int root) {
        DayCourse medium = root >= 0 ? mediums.get(root) : leaf;
        return new AirPull() {
            @Override
            public double leaf(long timeMs) {
                return known(leaf.at(timeMs), 1);
            }

            @Override
            public double medium(long timeMs) {
                return known(medium.at(timeMs), leaf(timeMs));
            }
        };
    }

    private static double known(double value, double otherwise) {
        return Double.isNaN(value) ? otherwise : Math.max(LEAST, value);
    }
}
