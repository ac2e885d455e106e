package traytender.rules.scenario;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.journal.JournalCsv;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Probe;
import traytender.rules.Replay;

/** A folder with a site, its readings as delivered and its journal; only calibrations such folders use are known here. */
public record Scenario(SiteFolder folder, List<Reading> delivered, List<JournalEntry> journal) {
    public static Scenario read(Path path) throws IOException {
        SiteFolder folder = SiteReader.read(path);
        List<JournalEntry> journal;
        try (var in = Files.newBufferedReader(path.resolve("journal.csv"))) {
            journal = JournalCsv.read(in).entries();
        }
        Map<String, Probe> probes = new HashMap<>();
        folder.site().probes().forEach(probe -> probes.put(probe.id(), probe));
        List<Reading> readings = new ArrayList<>();
        for (String line : Files.readAllLines(path.resolve("readings.csv"))) {
            String[] parts = line.split(",", 3);
            Probe probe = probes.get(parts[1]);
            if (probe != null) {
                Reading reading = reading(probe, Instant.parse(parts[0]).toEpochMilli(), parts[2]);
                if (reading != null) {
                    readings.add(reading);
                }
            }
        }
        return new Scenario(folder, readings, journal);
    }

    private static @Nullable Reading reading(Probe probe, long timeMs, String text) {
        double raw;
        if (probe.binding() instanceof Binding.Text words && words.words().containsKey(text)) {
            raw = words.words().get(text);
        } else if (probe.binding() instanceof Binding.Json words
                && words.words().containsKey(text)) {
            raw = words.words().get(text);
        } else {
            try {
                raw = Double.parseDouble(text);
            } catch (NumberFormatException e) {
                return null;
            }
        }
        if (!Double.isFinite(raw)) {
            return null;
        }
        double value = raw;
        int marks = 0;
        Calibration calibration = probe.calibration().last();
        if (calibration instanceof Calibration.DryWet ends) {
            value = (raw - ends.dry()) / (ends.wet() - ends.dry());
            if (value < 0 || value > 1) {
                marks |= Marks.CLAMPED;
                value = Math.max(0, Math.min(1, value));
            }
        } else if (calibration instanceof Calibration.Offset offset) {
            value = raw + offset.offset();
        }
        if (!probe.measures().isPlausible(value)) {
            marks |= Marks.RANGE;
        }
        return new Reading(probe.id(), timeMs, value, raw, marks);
    }

    /** The readings as a store gives them: in order, each probe and time once. */
    public ReadingSource stored() {
        var order = new TreeMap<Long, TreeMap<String, Reading>>();
        for (Reading reading : delivered) {
            order.computeIfAbsent(reading.timeMs(), time -> new TreeMap<>()).putIfAbsent(reading.probe(), reading);
        }
        List<Reading> sorted = new ArrayList<>();
        order.values().forEach(same -> sorted.addAll(same.values()));
        return (fromMs, toMs, consumer) -> {
            for (Reading reading : sorted) {
                if (reading.timeMs() >= fromMs && reading.timeMs() < toMs) {
                    consumer.accept(reading);
                }
            }
        };
    }

    public List<Alert> replay() {
        return Replay.run(folder, folder.crops(), journal, stored());
    }

    /** Every scenario below a folder, by name. */
    public static List<Path> below(Path folder) throws IOException {
        try (var paths = Files.list(folder)) {
            return paths.filter(path -> Files.exists(path.resolve("readings.csv")))
                    .sorted(Comparator.naturalOrder())
                    .toList();
        }
    }
}
