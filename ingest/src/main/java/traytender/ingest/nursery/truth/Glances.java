package traytender.ingest.nursery.truth;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Place;
import traytender.config.site.Quantity;
import traytender.config.site.Tray;
import traytender.ingest.nursery.probe.Bench;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.world.Happening;
import traytender.ingest.nursery.world.World;

/**
 * The true water of every cell of every tray, a few times a day, beside what its moisture probes would read without noise: to hold an estimate of the
 * cells against. <b>Not thread-safe.</b>
 */
public final class Glances implements Bench.Witness {
    private static final long EVERY_MINUTES = 361;

    /**
     * What a probe reads in its cell.
     *
     * @param reads without noise, by its calibration
     */
    public record Spot(Cell cell, double reads) {}

    /**
     * One tray at one time.
     *
     * @param mat whether it lies on a mat
     * @param water of every cell, row by row from the front left
     */
    public record Glance(Cells cells, boolean mat, List<Spot> spots, List<Double> water) {
        public Glance {
            spots = List.copyOf(spots);
            water = List.copyOf(water);
        }

        /** The true water of a cell. */
        public double water(Cell cell) {
            return water.get((cell.row() - 1) * cells.columns() + cell.column() - 1);
        }
    }

    private final Instant start;
    private final List<Tray> trays;
    private final List<SimulatedProbe> probes;
    private final List<Glance> glances = new ArrayList<>();

    public Glances(Instant start, List<Tray> trays, List<SimulatedProbe> probes) {
        this.start = start;
        this.trays = List.copyOf(trays);
        this.probes = List.copyOf(probes);
    }

    @Override
    public void before(Happening happening, World world) {}

    @Override
    public void minute(World world) {
        if ((Duration.between(start, world.time()).toMinutes() + 1) % EVERY_MINUTES == 0) {
            trays.forEach(tray -> glances.add(glance(tray, world)));
        }
    }

    private Glance glance(Tray tray, World world) {
        var plugs = world.tray(tray.id());
        var spots = new ArrayList<Spot>();
        for (SimulatedProbe probe : probes) {
            boolean here = probe.probe().measures() == Quantity.MOISTURE
                    && probe.probe().at().last().equals(place(tray, probe))
                    && probe.faults().stream().noneMatch(fault -> fault.holds(world.time()));
            if (here) {
                spots.add(new Spot(probe.cell().orElseThrow(), probe.seen(world)));
            }
        }
        var water = new ArrayList<Double>(tray.cells().count());
        for (int i = 0; i < tray.cells().count(); i++) {
            water.add(plugs.water(
                    new Cell(i / tray.cells().columns() + 1, i % tray.cells().columns() + 1)));
        }
        return new Glance(tray.cells(), tray.mat() != null, spots, water);
    }

    private static Place place(Tray tray, SimulatedProbe probe) {
        return new Place.InCell(tray.id(), probe.cell().orElse(new Cell(1, 1)));
    }

    /** All of them so far, in order. */
    public List<Glance> all() {
        return List.copyOf(glances);
    }
}
