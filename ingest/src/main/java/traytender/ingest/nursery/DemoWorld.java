package traytender.ingest.nursery;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Cells;
import traytender.config.site.LampHours;
import traytender.config.site.Location;
import traytender.config.site.Probe;
import traytender.config.site.RoomKind;
import traytender.config.site.Site;
import traytender.ingest.nursery.probe.ProbeFault;
import traytender.ingest.nursery.probe.ProbeTraits;
import traytender.ingest.nursery.probe.SimulatedNode;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.world.HeatMat;
import traytender.ingest.nursery.world.MatTraits;
import traytender.ingest.nursery.world.Noise;
import traytender.ingest.nursery.world.Plugs;
import traytender.ingest.nursery.world.RoomAir;
import traytender.ingest.nursery.world.RoomTraits;
import traytender.ingest.nursery.world.Sky;
import traytender.ingest.nursery.world.SkyTraits;
import traytender.ingest.nursery.world.TrayTraits;
import traytender.ingest.nursery.world.TrayTraits.Footprint;
import traytender.ingest.nursery.world.World;

/** The rooms, mats, trays and devices of Alder Lane Nursery. All numbers are our choice. */
final class DemoWorld {
    private static final SimulatedNode.Habits HABITS = new SimulatedNode.Habits(0.08, 0.004, 0.002);

    private final Site site;
    private final Instant now;
    private final Instant start;
    private final Noise noise;

    DemoWorld(Site site, Instant now, long seed) {
        this.site = site;
        this.now = now;
        this.start = now.minus(DemoNursery.BEHIND);
        this.noise = new Noise(seed);
    }

    World world() {
        var world = new World(sky(), start);
        world.add(room(new RoomTraits(
                "propagation",
                RoomKind.INDOORS,
                21,
                17,
                0.62,
                new LampHours(LocalTime.of(6, 0), LocalTime.of(22, 0)))));
        world.add(room(new RoomTraits("greenhouse", RoomKind.GREENHOUSE, 24, 15.5, 0.6, null)));
        world.add(room(new RoomTraits("cold-frame", RoomKind.OUTDOORS, 20, 0, 0.7, null)));
        world.add(new HeatMat(new MatTraits("mat-1", "propagation", 17, 27, 1.2, "T01")));
        world.add(new HeatMat(new MatTraits("mat-2", "propagation", 27, 26, 1.2, "T04")));
        addTrays(world);
        return world.settled();
    }

    private void addTrays(World world) {
        // T01 and T02 lie on one mat: T01 over its middle, T02 with its left half.
        tray(world, "T01", 0.0085, 0.001, 0.02, new Footprint(4.5, 8.5, 4.5, 9, 0.1), 0.97);
        tray(world, "T02", 0.003, 0.004, 0.1, new Footprint(3.5, 3, 4, 8, 0.2), 0.85);
        tray(world, "T03", 0.004, 0.014, 0.22, null, 0.9);
        tray(world, "T04", 0.003, 0, 0.08, Footprint.under(new Cells(6, 12), 0.5), 0.85);
        tray(world, "T05", 0.005, 0.014, 0.12, null, 0.7);
        tray(world, "T06", 0.005, 0.013, 0.2, null, 0.8);
        tray(world, "T07", 0.01, 0.018, 0.15, null, 0.8);
    }

    private void tray(
            World world,
            String id,
            double evaporation,
            double canopy,
            double edgeFlow,
            @Nullable Footprint footprint,
            double water) {
        var tray = site.tray(id).orElseThrow();
        var traits = new TrayTraits(
                id,
                tray.room(),
                tray.mat(),
                tray.cells(),
                evaporation,
                canopy,
                edgeFlow,
                0.35,
                0.05,
                footprint == null ? Footprint.under(tray.cells(), 0) : footprint);
        world.add(new Plugs(traits, water, noise.of(id)));
    }

    private RoomAir room(RoomTraits traits) {
        return new RoomAir(traits, noise.of(traits.id()));
    }

    private Sky sky() {
        Location place = Objects.requireNonNull(site.location(), "the demo's site has a location");
        var lastEvening = now.atZone(site.timezone()).toLocalDate().minusDays(1);
        var traits = new SkyTraits(place, site.timezone(), 11.5, 2.8, 0.5, 0.6, Map.of(lastEvening, 10.5));
        return new Sky(traits, noise.of("sky"));
    }

    List<SimulatedNode> nodes() {
        var byTopic = new LinkedHashMap<String, List<SimulatedProbe>>();
        for (Probe probe : site.probes()) {
            byTopic.computeIfAbsent(probe.binding().topic(), topic -> new ArrayList<>())
                    .add(new SimulatedProbe(probe, traits(probe), faults(probe), start));
        }
        return byTopic.values().stream()
                .map(probes -> new SimulatedNode(probes, every(probes), HABITS, start, noise))
                .toList();
    }

    private static Duration every(List<SimulatedProbe> probes) {
        return Objects.requireNonNullElse(probes.get(0).probe().every(), Duration.ofMinutes(5));
    }

    private ProbeTraits traits(Probe probe) {
        Noise own = noise.of(probe.id() + "-traits");
        return switch (probe.measures()) {
            case MOISTURE ->
                new ProbeTraits(
                        own.between(1, 0.98, 1.02),
                        own.between(2, -0.01, 0.01),
                        0.005,
                        own.between(3, -0.002, 0.002),
                        0.0008,
                        0);
            case TEMPERATURE, AIR_TEMPERATURE, MAT_SURFACE ->
                new ProbeTraits(1, own.between(4, -0.2, 0.2), 0.05, 0, 0, 0.1);
            case HUMIDITY -> new ProbeTraits(1, own.between(5, -2, 2), 0.5, 0, 0, 0.1);
            case BATTERY -> new ProbeTraits(1, 0, 0, 0, 0, 1);
            default -> new ProbeTraits(1, 0, 0, 0, 0, 1);
        };
    }

    private List<ProbeFault> faults(Probe probe) {
        if (!probe.id().startsWith("T05-centre")) {
            return List.of();
        }
        Instant quiet = now.minus(DemoScript.SILENT_FOR);
        return List.of(new ProbeFault(ProbeFault.Kind.SILENT, quiet, quiet.plus(30, ChronoUnit.DAYS), 0));
    }
}
