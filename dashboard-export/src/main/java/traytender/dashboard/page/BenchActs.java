package traytender.dashboard.page;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.JournalEntry;
import traytender.dashboard.limits.LimitsDesk;
import traytender.dashboard.notice.PeopleNotices;
import traytender.dashboard.setup.Sensors;
import traytender.dashboard.setup.SiteDesk;
import traytender.ingest.store.Act;
import traytender.ingest.store.KeptEntry;

/**
 * What the grower can do from the page. Whatever it is, it is on disk when the call returns, and the watch hears of it soon
 * after. Nothing is deleted: what is taken back stays on record.
 *
 * <p><b>Safe from any thread.</b>
 */
public interface BenchActs {
    /** Writes journal entries as one group; answers them with their numbers, in the same order. */
    List<KeptEntry> write(List<JournalEntry> entries);

    /**
     * Takes an entry back.
     *
     * @return it as it stands now; empty when there is none of that number
     */
    Optional<KeptEntry> withdraw(long number);

    /**
     * Lets a withdrawn entry count again.
     *
     * @return it as it stands now; empty when there is none of that number
     */
    Optional<KeptEntry> bringBack(long number);

    /**
     * Puts another entry in the place of one.
     *
     * @return the one that counts now; empty when there is none of that number that counts
     */
    Optional<KeptEntry> correct(long number, JournalEntry right);

    /**
     * Keeps what was done about alerts, with the journal entries that come with it, as one group.
     *
     * @param until from when on the alerts ask again; null for never
     */
    Act mark(Act.Mark mark, @Nullable Instant until, List<String> alerts, List<JournalEntry> entries);

    /**
     * Takes back what was done about alerts, and the journal entries that came with it.
     *
     * @return what was taken back; empty when there is none of that number, or it was before
     */
    Optional<Act> undo(long act);

    /** Where limits are tried, kept and brought back. */
    LimitsDesk limits();

    /** Where the site's files are changed. */
    SiteDesk siteDesk();

    /** Sensors as they speak at the moment, and who may. */
    Sensors sensors();

    /** Who hears of alerts, what was sent, and tests of the way. */
    PeopleNotices people();
}
