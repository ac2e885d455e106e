package traytender.rules;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import traytender.config.alert.Alert;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.rules.bench.Bench;
import traytender.rules.bench.Unit;
import traytender.rules.judge.Judge;

/**
 * Some of a site's trays and rooms in a {@link Replay}, with a judge of their own. It is shown every reading of the site, since all
 * of them tell when the program listened. <b>Not thread-safe.</b>
 */
final class ReplayShare implements AutoCloseable {
    private final SiteFolder folder;
    private final Crops crops;
    private final List<JournalEntry> journal;
    private final int part;
    private final int parts;
    private final Judge judge = new Judge();
    private final Listening listening = new Listening();
    private final List<Advance> runs = new ArrayList<>();
    private final Map<String, List<Advance>> byProbe = new HashMap<>();
    private boolean begun;
    private long newestMs = Long.MIN_VALUE;

    /** The units whose number leaves {@code part} when divided by {@code parts}. */
    ReplayShare(SiteFolder folder, Crops crops, List<JournalEntry> journal, int part, int parts) {
        this.folder = folder;
        this.crops = crops;
        this.journal = journal;
        this.part = part;
        this.parts = parts;
    }

    /** Takes the next reading of the site. */
    void take(Reading reading) {
        if (!begun) {
            begin(reading.time());
        }
        newestMs = Math.max(newestMs, reading.timeMs());
        listening.add(reading.timeMs());
        List<Advance> wanted = byProbe.get(reading.probe());
        if (wanted == null) {
            return;
        }
        for (int i = 0; i < wanted.size(); i++) {
            Advance run = wanted.get(i);
            run.to(reading.timeMs(), listening, judge);
            run.unit().take(reading);
        }
    }

    private void begin(Instant first) {
        begun = true;
        // A bench of its own: it remembers what it was asked.
        List<Unit> units = Units.of(new Bench(folder, crops, journal, first));
        for (int i = part; i < units.size(); i += parts) {
            var run = new Advance(units.get(i), Long.MIN_VALUE);
            runs.add(run);
            for (String probe : units.get(i).probes()) {
                byProbe.computeIfAbsent(probe, id -> new ArrayList<>()).add(run);
            }
        }
    }

    /** Looks at the last minute and gives all alerts. */
    List<Alert> finish() {
        var alerts = new ArrayList<Alert>();
        for (Advance run : runs) {
            run.to(Listening.minuteAfter(newestMs), listening, judge);
            alerts.addAll(run.unit().book().alerts());
        }
        return alerts;
    }

    @Override
    public void close() {
        judge.close();
    }
}
