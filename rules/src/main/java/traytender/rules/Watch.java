package traytender.rules;

import java.time.Instant;
import java.util.List;
import java.util.function.Consumer;
import traytender.config.alert.Alert;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.rules.view.MatView;
import traytender.rules.view.ProbeView;
import traytender.rules.view.RoomView;
import traytender.rules.view.TrayView;

/**
 * The live watch over a site: takes readings and journal entries as they come, looks at every tray and room once a minute of
 * event time, and says what opened, closed or changed.
 *
 * <p><b>Thread rule:</b> {@link #accept}, {@link #journal} and {@link #tick} belong to one thread; the views and {@link
 * #alerts()} may be read from any thread and are immutable.
 */
public final class Watch {
    /**
     * A watch that has seen nothing yet.
     *
     * @param journal every entry so far
     * @param changes told of every change, on the thread that caused it
     */
    public Watch(SiteFolder folder, List<JournalEntry> journal, Consumer<AlertChange> changes) {}

    /** Takes readings in any order; a repeated one changes nothing. */
    public void accept(List<Reading> readings) {}

    /** Takes a new journal entry, which may lie in the past. */
    public void journal(JournalEntry entry) {}

    /** Says that it is now this time: minutes that have ended are looked at. */
    public void tick(Instant now) {}

    /** Every tray, in the order of the site file. */
    public List<TrayView> trays() {
        return List.of();
    }

    /** Every room, in the order of the site file. */
    public List<RoomView> rooms() {
        return List.of();
    }

    /** Every mat, in the order of the site file. */
    public List<MatView> mats() {
        return List.of();
    }

    /** Every probe, in the order of the site file. */
    public List<ProbeView> probes() {
        return List.of();
    }

    /** Every alert known, in order of opening. */
    public List<Alert> alerts() {
        return List.of();
    }
}
