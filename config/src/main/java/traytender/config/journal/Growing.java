package traytender.config.journal;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import traytender.config.crop.Crops;
import traytender.config.site.Cell;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Site;

/**
 * Who stands where at what stage, at any time: the site file, moved on by the journal. Worked out once into the changes of
 * every tray, so that a question is a binary search. Immutable and threadsafe; made anew when the journal grows.
 *
 * <h2>Turned trays</h2>
 *
 * A tray is turned half round: row r becomes row R + 1 - r and column c becomes C + 1 - c. The plants, their labels and the
 * probes stuck in the cells turn with it; front, back, left and right stay with the bench, since the grower's hand waters
 * from the front and the draught comes from where it came. So {@link SowingNow#block} and {@link #cell} are always as the
 * tray stands at that time, and so are the rows a journal entry names. What the site file dates with {@code since}
 * describes the tray as it stands at that date; what it does not date, as it stood in the beginning.
 */
public final class Growing {
    private final Map<String, List<TrayNow>> changes;
    private final List<Doubt> doubts;

    /**
     * A journal entry that had no effect, or less than it says; it is kept all the same.
     *
     * @param why in the grower's words
     */
    public record Doubt(JournalEntry entry, String why) {}

    Growing(Map<String, List<TrayNow>> changes, List<Doubt> doubts) {
        this.changes = Map.copyOf(changes);
        this.doubts = List.copyOf(doubts);
    }

    /** As the site file and the journal have it; entries in any order, those of the same time in the order given. */
    public static Growing of(Site site, Crops crops, List<JournalEntry> entries) {
        return of(site, crops, entries, Instant.MIN);
    }

    /**
     * As {@link #of(Site, Crops, List)}, with the time of the first reading known. The site file's {@code stage} is the stage
     * at that time, so an entry before it never leaves a sowing at an earlier stage than the file says.
     */
    public static Growing of(Site site, Crops crops, List<JournalEntry> entries, Instant firstReading) {
        return new GrowingWalk(site, crops, firstReading).walk(entries);
    }

    /** The tray at a time; empty for a tray that does not exist, or not yet. */
    public Optional<TrayNow> find(String tray, Instant time) {
        List<TrayNow> ofTray = changes(tray);
        int low = 0;
        int high = ofTray.size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (ofTray.get(middle).since().isAfter(time)) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low == 0 ? Optional.empty() : Optional.of(ofTray.get(low - 1));
    }

    /**
     * The tray at a time; before it was there, as it first was.
     *
     * @throws IllegalArgumentException when there is no such tray
     */
    public TrayNow at(String tray, Instant time) {
        List<TrayNow> ofTray = changes(tray);
        if (ofTray.isEmpty()) {
            throw new IllegalArgumentException("no tray named " + tray);
        }
        return find(tray, time).orElse(ofTray.get(0));
    }

    /** Every change of a tray in order of time, the first being how it began; empty for a tray that does not exist. */
    public List<TrayNow> changes(String tray) {
        return changes.getOrDefault(tray, List.of());
    }

    /** Entries without their full effect, in order of time. */
    public List<Doubt> doubts() {
        return doubts;
    }

    /**
     * The cell in which a probe is at a time, as its tray stands on the bench then; it gives the probe's zone.
     *
     * @return empty when the probe is in no cell at that time
     */
    public Optional<Cell> cell(Probe probe, Instant time) {
        Dated.From<Place> found = null;
        for (Dated.From<Place> from : probe.at().values()) {
            if (!from.since().isAfter(time)) {
                found = from;
            }
        }
        if (found == null || !(found.value() instanceof Place.InCell place)) {
            return Optional.empty();
        }
        TrayNow now = at(place.tray(), time);
        boolean sameWay = at(place.tray(), found.since()).turned() == now.turned();
        return Optional.of(sameWay ? place.cell() : place.cell().turned(now.cells()));
    }

    /**
     * The sowing that a probe in a cell is judged by at a time.
     *
     * @return empty when the probe is in no cell, or its tray holds no sowing
     */
    public Optional<SowingNow> sowing(Probe probe, Instant time) {
        Optional<Place> place = probe.at().at(time);
        if (place.isEmpty() || !(place.get() instanceof Place.InCell inCell)) {
            return Optional.empty();
        }
        return cell(probe, time).flatMap(cell -> at(inCell.tray(), time).sowingAt(cell));
    }
}
