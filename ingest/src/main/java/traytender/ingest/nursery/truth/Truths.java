package traytender.ingest.nursery.truth;

import java.time.Duration;
import java.util.List;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Room;
import traytender.config.site.Tray;

/**
 * Works the truth of a scenario out of its true state.
 *
 * <p>The fairness rule: a program sees a probe's reading, not the cell, and cannot know the probe's error. So both the true value and the one a probe
 * without noise would read count; the more alarming of the two decides what is possible, the less alarming one what is certain, with a margin g
 * beside it: 0.015 or 1.2 times the noise for moisture, 0.3 K for temperatures, 0.4 K for differences.
 */
public final class Truths {
    private Truths() {}

    /** The truth of one scenario that has been run to its end. */
    public static Truth of(
            Truth.About about, SiteFolder folder, List<JournalEntry> journal, Trace trace, Duration interval) {
        var found = new Case(folder, journal, trace, interval);
        for (Tray tray : folder.site().trays()) {
            DryTruth.judge(found, tray);
            UnevenTruth.judge(found, tray);
            WateringTruth.judge(found, tray);
            RootTruth.judge(found, tray);
            MatTruth.judge(found, tray);
            JournalTruth.judge(found, tray);
        }
        for (Room room : folder.site().rooms()) {
            RoomTruth.judge(found, room);
        }
        ProbeTruth.judge(found);
        return found.truth(about);
    }
}
