package traytender.dashboard.page;

import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import traytender.config.alert.Alert;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.KeptEntry;

/**
 * A mat that the program has told to rest: kept in the journal as {@code mat-off} with the reason, so that the watch knows and the
 * grower sees, and standing until the grower says otherwise by an entry of their own. There is no way back on but by hand.
 */
public final class MatRest {
    private static final Map<String, String> DETAIL = Map.of("by", "relay", "reason", "too-hot");
    private static final Set<EntryKind> ABOUT_MATS = Set.of(EntryKind.MAT_OFF, EntryKind.MAT_ON);

    private MatRest() {}

    /**
     * The entry for an alert on which a mat was told to rest.
     *
     * @param alert about a tray
     * @return empty when the journal has it already, as after a restart
     */
    public static Optional<JournalEntry> entry(Alert alert, Instant now, Collection<JournalEntry> journal) {
        String tray = alert.tray();
        boolean known = journal.stream()
                .anyMatch(entry -> isRest(entry)
                        && entry.tray().equals(tray)
                        && !entry.time().isBefore(alert.opened()));
        return tray == null || known
                ? Optional.empty()
                : Optional.of(new JournalEntry(now, tray, EntryKind.MAT_OFF, DETAIL, alert.says()));
    }

    private static boolean isRest(JournalEntry entry) {
        return entry.kind() == EntryKind.MAT_OFF && DETAIL.equals(entry.detail());
    }

    /** The rest that still stands on a mat, by the trays on it: no entry about the mat has followed. */
    static Optional<JournalEntry> standing(List<KeptEntry> journal, Collection<String> trays) {
        return journal.stream()
                .filter(KeptEntry::counts)
                .map(KeptEntry::entry)
                .filter(entry -> ABOUT_MATS.contains(entry.kind()) && trays.contains(entry.tray()))
                .max(Comparator.comparing(JournalEntry::time))
                .filter(MatRest::isRest);
    }
}
