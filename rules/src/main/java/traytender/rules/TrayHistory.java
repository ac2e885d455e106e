package traytender.rules;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.rules.bench.Bench;
import traytender.rules.bench.TrayUnit;
import traytender.rules.judge.Judge;
import traytender.rules.view.TrayView;

/**
 * How a tray looked at times of the past: its stored readings taken again in order of time, by the same computation as live, and
 * looked at on the way. Minutes count as listened to where one of the tray's own probes was heard.
 */
public final class TrayHistory {
    private final List<Instant> times;
    private final Advance run;
    private final Judge judge;
    private final Listening listening = new Listening();
    private final List<TrayView> views = new ArrayList<>();

    private TrayHistory(List<Instant> times, TrayUnit unit, Judge judge) {
        this.times = times;
        this.run = new Advance(unit, Long.MIN_VALUE);
        this.judge = judge;
    }

    /** Ids of the probes whose readings bear on a tray. */
    public static List<String> probes(SiteFolder folder, List<JournalEntry> journal, String tray) {
        var bench = new Bench(folder, folder.crops(), journal, Instant.MIN);
        return new TrayUnit(bench, tray).probes().stream().sorted().toList();
    }

    /**
     * The tray at some times.
     *
     * @param readings of the tray's {@link #probes}
     * @param firstReading the time of the site's first reading, from which the site file's stages hold
     * @param begin readings from then on are taken; what lies before the first of {@code times} lets the computation settle
     * @param times rising, a view for each
     */
    public static List<TrayView> of(
            SiteFolder folder,
            List<JournalEntry> journal,
            ReadingSource readings,
            String tray,
            Instant firstReading,
            Instant begin,
            List<Instant> times) {
        try (var judge = new Judge()) {
            var unit = new TrayUnit(new Bench(folder, folder.crops(), journal, firstReading), tray);
            var history = new TrayHistory(times, unit, judge);
            long toMs = times.get(times.size() - 1).toEpochMilli();
            readings.scan(begin.toEpochMilli(), toMs, history::take);
            history.viewUntil(Long.MAX_VALUE);
            return List.copyOf(history.views);
        }
    }

    private void take(Reading reading) {
        viewUntil(reading.timeMs());
        listening.add(reading.timeMs());
        run.to(reading.timeMs(), listening, judge);
        run.unit().take(reading);
    }

    /** Views of the times that come before this reading's. */
    private void viewUntil(long timeMs) {
        while (views.size() < times.size() && times.get(views.size()).toEpochMilli() <= timeMs) {
            Instant time = times.get(views.size());
            run.to(time.toEpochMilli(), listening, judge);
            views.add(((TrayUnit) run.unit()).view(time));
        }
    }
}
