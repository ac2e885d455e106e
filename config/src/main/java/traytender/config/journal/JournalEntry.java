package traytender.config.journal;

import java.time.Instant;
import java.util.Map;

/**
 * One dated entry of the grower's journal.
 *
 * @param tray the tray's id
 * @param detail key to value, as {@code rows} to {@code 1-4}; empty when there is none
 * @param note text that is not in the form {@code key=value}; empty when there is none
 */
public record JournalEntry(Instant time, String tray, EntryKind kind, Map<String, String> detail, String note) {
    public JournalEntry {
        detail = Map.copyOf(detail);
    }

    /**
     * An entry from its detail column.
     *
     * @param text pairs {@code key=value} parted by {@code ;}; whatever is not in this form becomes the note
     */
    public static JournalEntry of(Instant time, String tray, EntryKind kind, String text) {
        Details.Parsed parsed = Details.parse(text);
        return new JournalEntry(time, tray, kind, parsed.detail(), parsed.note());
    }

    /** The detail column, as {@link #of} reads it. */
    public String detailText() {
        return Details.write(detail, note);
    }
}
