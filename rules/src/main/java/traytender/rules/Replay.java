package traytender.rules;

import java.util.List;
import traytender.config.alert.Alert;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.ReadingSource;

/** Runs the rules over stored readings, from the first to the newest. */
public final class Replay {
    private Replay() {}

    /**
     * Every alert the readings give, in order of opening.
     *
     * @param crops limits to judge by, which may be others than the site's
     */
    public static List<Alert> run(SiteFolder folder, Crops crops, List<JournalEntry> journal, ReadingSource readings) {
        return List.of();
    }
}
