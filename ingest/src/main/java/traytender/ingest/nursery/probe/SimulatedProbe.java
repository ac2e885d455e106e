package traytender.ingest.nursery.probe;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.ingest.nursery.world.Plugs;
import traytender.ingest.nursery.world.RoomAir;
import traytender.ingest.nursery.world.World;

/**
 * A probe of the site with its errors and faults.
 *
 * @param probe as the site file describes it
 * @param faults in no order; may overlap
 * @param started when its drift was nought
 */
public record SimulatedProbe(Probe probe, ProbeTraits traits, List<ProbeFault> faults, Instant started) {
    private static final double AIR_READS = -0.05;

    public SimulatedProbe {
        faults = List.copyOf(faults);
    }

    /** The fault of a kind that holds at a time. */
    public Optional<ProbeFault> fault(ProbeFault.Kind kind, Instant time) {
        return faults.stream()
                .filter(fault -> fault.kind() == kind && fault.holds(time))
                .findFirst();
    }

    /** The true value at its place. Battery: percent, falling slowly. */
    public double truth(World world) {
        Place place = probe.at().last();
        if (probe.measures() == Quantity.BATTERY) {
            return Math.max(3, 100 - days(world.time()) * 2);
        }
        if (place instanceof Place.InCell inCell) {
            Plugs tray = world.tray(inCell.tray());
            return probe.measures() == Quantity.MOISTURE ? tray.water(inCell.cell()) : tray.heat(inCell.cell());
        }
        if (place instanceof Place.AtMat atMat) {
            return ofMat(world, atMat.mat());
        }
        if (place instanceof Place.InRoom inRoom) {
            return ofRoom(world.room(inRoom.room()));
        }
        throw new IllegalArgumentException("no truth for " + probe.id());
    }

    private double ofMat(World world, String mat) {
        boolean surface = probe.measures() == Quantity.MAT_SURFACE;
        return surface ? world.mat(mat).surface() : world.mat(mat).reportsHeating() ? 1 : 0;
    }

    private double ofRoom(RoomAir air) {
        return switch (probe.measures()) {
            case AIR_TEMPERATURE -> air.temperature();
            case HUMIDITY -> air.humidity();
            default -> air.light() > 0.02 ? 1 : 0;
        };
    }

    /** What it would read without noise and faults: the truth through its gain, offset, drift and feeling for temperature. */
    public double seen(World world) {
        double seen = traits.gain() * truth(world) + traits.offset() + traits.driftPerDay() * days(world.time());
        if (probe.measures() == Quantity.MOISTURE && probe.at().last() instanceof Place.InCell in) {
            seen += traits.perKelvin() * (world.tray(in.tray()).heat(in.cell()) - 20);
        }
        return seen;
    }

    /** What it reads lying in air. */
    double lifted(World world) {
        if (probe.measures() == Quantity.MOISTURE) {
            return AIR_READS;
        }
        Place place = probe.at().last();
        return place instanceof Place.InCell in
                ? world.room(world.tray(in.tray()).room()).temperature()
                : seen(world);
    }

    /** A value as the probe would send it, rounded as it rounds. */
    double raw(double value) {
        Calibration calibration = probe.calibration().last();
        if (calibration instanceof Calibration.DryWet dryWet) {
            double counts = Math.max(1, Math.rint(traits.step() * Math.abs(dryWet.wet() - dryWet.dry())));
            return counts * Math.rint((dryWet.dry() + (dryWet.wet() - dryWet.dry()) * value) / counts);
        }
        if (calibration instanceof Calibration.Ntc ntc) {
            double kelvin = value + 273.15;
            double ohms = ntc.r25() * Math.exp(ntc.beta() * (1 / kelvin - 1 / 298.15));
            return Math.rint(ntc.counts() * ohms / (ohms + ntc.series()));
        }
        double sent = calibration instanceof Calibration.Offset offset ? value - offset.offset() : value;
        return traits.step() == 0 ? sent : Math.rint(sent / traits.step()) * traits.step();
    }

    /** The cell it stands in, when it stands in one. */
    public Optional<Cell> cell() {
        return probe.at().last() instanceof Place.InCell in ? Optional.of(in.cell()) : Optional.empty();
    }

    private double days(Instant time) {
        return Duration.between(started, time).toSeconds() / 86_400.0;
    }
}
