package traytender.rules;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.rules.bench.Bench;
import traytender.rules.bench.Unit;
import traytender.rules.judge.Judge;

/**
 * Runs the rules over stored readings, from the first to the newest, in one pass in order of time. Nothing is kept but the
 * state of each tray and room, so the length of the history does not matter.
 */
public final class Replay {
    private final SiteFolder folder;
    private final Crops crops;
    private final List<JournalEntry> journal;
    private final Judge judge;
    private final Listening listening = new Listening();
    private final List<Advance> runs = new ArrayList<>();
    private final Map<String, List<Advance>> byProbe = new HashMap<>();
    private long newestMs = Long.MIN_VALUE;

    private Replay(SiteFolder folder, Crops crops, List<JournalEntry> journal, Judge judge) {
        this.folder = folder;
        this.crops = crops;
        this.journal = journal;
        this.judge = judge;
    }

    /**
     * Every alert the readings give, in order of opening.
     *
     * @param crops limits to judge by, which may be others than the site's
     */
    public static List<Alert> run(SiteFolder folder, Crops crops, List<JournalEntry> journal, ReadingSource readings) {
        try (var judge = new Judge()) {
            var replay = new Replay(folder, crops, journal, judge);
            readings.scan(Long.MIN_VALUE, Long.MAX_VALUE, replay::take);
            return replay.finish();
        }
    }

    private void take(Reading reading) {
        if (runs.isEmpty()) {
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
        var bench = new Bench(folder, crops, journal, first);
        for (Unit unit : Units.of(bench)) {
            var run = new Advance(unit, Long.MIN_VALUE);
            runs.add(run);
            for (String probe : unit.probes()) {
                byProbe.computeIfAbsent(probe, id -> new ArrayList<>()).add(run);
            }
        }
    }

    private List<Alert> finish() {
        var alerts = new ArrayList<Alert>();
        for (Advance run : runs) {
            run.to(Listening.minuteAfter(newestMs), listening, judge);
            alerts.addAll(run.unit().book().alerts());
        }
        alerts.sort(ORDER);
        return List.copyOf(alerts);
    }

    /** In order of opening; what opened together in an order of its own that never changes. */
    static final Comparator<Alert> ORDER = Comparator.comparing(Alert::opened)
            .thenComparing(Alert::place)
            .thenComparing(Alert::kind)
            .thenComparing(alert -> text(alert.zone()))
            .thenComparing(alert -> text(alert.reason()))
            .thenComparing(Alert::id);

    private static String text(@Nullable Object value) {
        return value == null ? "" : value.toString();
    }
}
