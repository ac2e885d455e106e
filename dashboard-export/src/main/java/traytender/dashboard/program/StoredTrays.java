package traytender.dashboard.program;

import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Probe;
import traytender.ingest.store.Extent;
import traytender.ingest.store.SiteStore;
import traytender.rules.TrayHistory;
import traytender.rules.view.TrayView;

/** How a tray looked at times of the past, from what is on disk. */
final class StoredTrays {
    /** So much of the time before lets drying rates and the mat's heat settle; our choice, a few waterings long. */
    private static final Duration SETTLING = Duration.ofDays(7);

    private StoredTrays() {}

    /**
     * The tray at some times.
     *
     * @param times rising, at least one
     */
    static List<TrayView> of(SiteFolder folder, SiteStore store, String tray, List<Instant> times) {
        List<JournalEntry> journal = store.journal().entries();
        List<String> wanted = TrayHistory.probes(folder, journal, tray);
        List<Probe> probes = folder.site().probes().stream()
                .filter(probe -> wanted.contains(probe.id()))
                .toList();
        Instant first = store.readings().extents().stream()
                .map(Extent::first)
                .min(Comparator.naturalOrder())
                .orElse(times.get(0));
        return TrayHistory.of(
                folder,
                journal,
                store.readings().source(probes),
                tray,
                first,
                times.get(0).minus(SETTLING),
                times);
    }
}
