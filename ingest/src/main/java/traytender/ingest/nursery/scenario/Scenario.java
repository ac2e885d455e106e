package traytender.ingest.nursery.scenario;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Probe;
import traytender.ingest.nursery.NurseryFiles;
import traytender.ingest.nursery.probe.Bench;
import traytender.ingest.nursery.probe.ProbeTraits;
import traytender.ingest.nursery.probe.SimulatedMessage;
import traytender.ingest.nursery.probe.SimulatedNode;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Trace;
import traytender.ingest.nursery.truth.Truth;
import traytender.ingest.nursery.truth.TruthFile;
import traytender.ingest.nursery.truth.Truths;
import traytender.ingest.nursery.world.HeatMat;
import traytender.ingest.nursery.world.MatTraits;
import traytender.ingest.nursery.world.Noise;
import traytender.ingest.nursery.world.Plugs;
import traytender.ingest.nursery.world.RoomAir;
import traytender.ingest.nursery.world.RoomTraits;
import traytender.ingest.nursery.world.Sky;
import traytender.ingest.nursery.world.SkyTraits;
import traytender.ingest.nursery.world.World;

/**
 * A drawn bench, written and run: a site folder with {@code readings.csv}, {@code journal.csv} and {@code truth.json}.
 *
 * @param messages in order of arrival
 * @param journal in order of time
 */
public record Scenario(
        String name,
        ScenarioKind kind,
        SiteFolder folder,
        List<SimulatedMessage> messages,
        List<JournalEntry> journal,
        Truth truth) {
    private static final SimulatedNode.Habits HABITS = new SimulatedNode.Habits(0.08, 0.005, 0.003);

    /**
     * Draws a scenario and writes it to a folder of its name.
     *
     * @throws UncheckedIOException when it cannot be written
     */
    public static Scenario write(Path scenarios, String name, ScenarioKind kind, long seed) {
        Draft draft = Faults.put(Drawing.draw(kind, seed));
        Path folder = scenarios.resolve(name);
        try {
            Files.createDirectories(folder.resolve("crops"));
            Files.writeString(folder.resolve("site.yaml"), SiteText.site(draft));
            for (DraftTray tray : draft.trays) {
                Files.writeString(
                        folder.resolve("crops").resolve(tray.crop + ".yaml"), SiteText.crop(draft, tray.crop));
            }
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write the scenario " + folder, e);
        }
        Scenario scenario = run(draft, name, SiteReader.read(folder));
        NurseryFiles.write(folder, scenario.messages, scenario.journal);
        TruthFile.write(folder.resolve("truth.json"), scenario.truth);
        return scenario;
    }

    private static Scenario run(Draft draft, String name, SiteFolder folder) {
        World world = world(draft);
        List<SimulatedProbe> probes = folder.site().probes().stream()
                .map(probe -> simulated(draft, probe))
                .toList();
        List<SimulatedNode> nodes = probes.stream()
                .map(probe -> new SimulatedNode(
                        List.of(probe), Duration.ofMinutes(draft.minutes), HABITS, draft.start(), draft.noise))
                .toList();
        var trace = new Trace(draft.start(), draft.end(), probes, draft.happenings);
        List<SimulatedMessage> messages = new Bench(world, nodes, draft.happenings, trace).messagesUntil(draft.end());
        // What was underway at the end is delivered after it, as a broker would.
        List<JournalEntry> journal = draft.journal.stream()
                .filter(entry -> entry.time().isBefore(draft.end()))
                .sorted(Comparator.comparing(JournalEntry::time).thenComparing(JournalEntry::tray))
                .toList();
        var about = new Truth.About(
                name, draft.kind.about(), draft.kind.isQuiet(), draft.start(), draft.end(), draft.days * 2, 2, 1);
        Truth truth = Truths.of(about, folder, journal, trace, Duration.ofMinutes(draft.minutes));
        return new Scenario(name, draft.kind, folder, messages, journal, truth);
    }

    private static World world(Draft draft) {
        Noise noise = draft.noise;
        var sky = new Sky(
                new SkyTraits(
                        draft.location, draft.zone, draft.meanC, draft.swingK, 1, draft.dampness, draft.clearNights),
                noise.of("sky"));
        var world = new World(sky, draft.start());
        world.add(new RoomAir(
                new RoomTraits(draft.room, draft.roomKind, draft.dayC, draft.nightC, draft.humidity, draft.lamps),
                noise.of("room")));
        for (DraftTray tray : draft.trays) {
            if (tray.mat != null) {
                world.add(
                        new HeatMat(new MatTraits(tray.mat, draft.room, draft.matRiseK, draft.matSetC, 1.2, tray.id)));
            }
            world.add(new Plugs(tray.traits(), tray.startWater, noise.of(tray.id)));
        }
        return world.settled();
    }

    private static SimulatedProbe simulated(Draft draft, Probe probe) {
        Instant start = draft.start();
        return new SimulatedProbe(probe, traits(draft, probe), draft.faults.getOrDefault(probe.id(), List.of()), start);
    }

    private static ProbeTraits traits(Draft draft, Probe probe) {
        Noise own = draft.noise.of(probe.id() + "-traits");
        return switch (probe.measures()) {
            case MOISTURE ->
                new ProbeTraits(
                        1 + draft.gainSpread * own.normal(1),
                        draft.offsetSpread * own.normal(2),
                        own.between(3, 0.004, 0.008),
                        0.001 * own.normal(4),
                        draft.perKelvinSpread * own.normal(5),
                        0);
            case TEMPERATURE, AIR_TEMPERATURE ->
                new ProbeTraits(1, Math.max(-0.3, Math.min(0.3, 0.12 * own.normal(6))), 0.06, 0, 0, 0.1);
            case HUMIDITY -> new ProbeTraits(1, own.normal(7), 0.5, 0, 0, 0.1);
            default -> new ProbeTraits(1, 0, 0, 0, 0, 1);
        };
    }
}
