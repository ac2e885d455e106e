package traytender.ingest.store;

import org.jspecify.annotations.Nullable;
import traytender.config.journal.JournalEntry;

/**
 * A journal entry as it stands on record.
 *
 * @param number its own for good, from 1
 * @param withdrawn whether the grower took it back
 * @param replacedBy the number of the entry that corrects it; null when none does
 */
public record KeptEntry(
        long number,
        JournalEntry entry,
        boolean withdrawn,
        @Nullable Long replacedBy) {
    /** Whether it is neither withdrawn nor corrected. */
    public boolean counts() {
        return !withdrawn && replacedBy == null;
    }
}
