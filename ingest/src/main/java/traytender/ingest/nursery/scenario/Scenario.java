package traytender.ingest.nursery.scenario;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.RoomKind;
import traytender.ingest.nursery.NurseryFiles;
import traytender.ingest.nursery.probe.Bench;
import traytender.ingest.nursery.probe.ProbeFault;
import traytender.ingest.nursery.probe.ProbeTraits;
import traytender.ingest.nursery.probe.SimulatedMessage;
import traytender.ingest.nursery.probe.SimulatedNode;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Glances;
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
 * @param glances the true water of every cell, now and then
 */
public record Scenario(
        String name,
        ScenarioKind kind,
        SiteFolder folder,
        List<SimulatedMessage> messages,
        List<JournalEntry> journal,
        Truth truth,
        List<Glances.Glance> glances) {
    /**
     * Draws a scenario and writes it to a folder of its name.
     *
     * @throws UncheckedIOException when it cannot be written
     */
    public static Scenario write(Path scenarios, String name, ScenarioKind kind, long seed) {
        Draft draft = kind.draw(seed);
        Path folder = scenarios.resolve(name);
        try {
            Files.createDirectories(folder.resolve("crops"));
            Files.writeString(folder.resolve("site.yaml"), SiteText.site(draft));
            for (DraftTray tray : draft.trays) {
                Path crops = folder.resolve("crops");
                Files.writeString(crops.resolve(tray.crop + ".yaml"), SiteText.crop(draft, tray.crop, false));
                String behind = tray.cropBehind;
                if (behind != null) {
                    Files.writeString(crops.resolve(behind + ".yaml"), SiteText.crop(draft, behind, true));
                }
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
                        List.of(probe),
                        Duration.ofMinutes(draft.minutes),
                        draft.instruments.habits(),
                        draft.start(),
                        draft.noise))
                .toList();
        var trace = new Trace(draft.start(), draft.end(), probes, draft.happenings);
        var glances = new Glances(draft.start(), folder.site().trays(), probes);
        List<SimulatedMessage> messages =
                new Bench(world, nodes, draft.happenings, trace.and(glances)).messagesUntil(draft.end());
        // What was underway at the end is delivered after it, as a broker would.
        List<JournalEntry> journal = draft.journal.stream()
                .filter(entry -> entry.time().isBefore(draft.end()))
                .sorted(Comparator.comparing(JournalEntry::time).thenComparing(JournalEntry::tray))
                .toList();
        int rooms = draft.glasshouse ? 2 : 1;
        var about = new Truth.About(
                name, draft.kind.about(), draft.kind.isQuiet(), draft.start(), draft.end(), draft.days * 2, 2, rooms);
        Truth truth = Truths.of(about, folder, journal, trace, Duration.ofMinutes(draft.minutes));
        return new Scenario(name, draft.kind, folder, messages, journal, truth, glances.all());
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
        if (draft.glasshouse) {
            var traits = new RoomTraits(Draft.GLASSHOUSE, RoomKind.GREENHOUSE, 22, 15, 0.6, null);
            world.add(new RoomAir(traits, noise.of(Draft.GLASSHOUSE)));
        }
        for (DraftTray tray : draft.trays) {
            String mat = tray.mat;
            // The first tray on a mat has its thermostat's sensor.
            if (mat != null && !world.mats().contains(mat)) {
                world.add(new HeatMat(new MatTraits(
                        mat, draft.room, draft.matRiseK, draft.matSetC, draft.matBandK, tray.id, draft.matTauMinutes)));
            }
            world.add(new Plugs(tray.traits(), tray.startWater, noise.of(tray.id)));
        }
        return world.settled();
    }

    private static SimulatedProbe simulated(Draft draft, Probe probe) {
        Instant start = draft.start();
        return new SimulatedProbe(probe, traits(draft, probe), faults(draft, probe), start);
    }

    private static ProbeTraits traits(Draft draft, Probe probe) {
        if (probe.measures() == Quantity.BATTERY) {
            return new ProbeTraits(1, 0, 0.5, 2 - 100 / draft.batteryEmptyOnDay, 0, 1);
        }
        ProbeTraits usual = draft.instruments.traits(probe.measures(), draft.noise.of(probe.id() + "-traits"));
        Double drift = draft.drifts.get(probe.id());
        return drift == null ? usual : usual.drifting(drift);
    }

    private static List<ProbeFault> faults(Draft draft, Probe probe) {
        List<ProbeFault> own = draft.faults.getOrDefault(probe.id(), List.of());
        if (draft.instruments.spikes() == 0 || probe.measures() != Quantity.MOISTURE) {
            return own;
        }
        var all = new ArrayList<>(own);
        all.add(new ProbeFault(ProbeFault.Kind.SPIKES, draft.start(), draft.end(), draft.instruments.spikes()));
        return all;
    }
}
