package traytender.dashboard.program;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.JournalEntry;
import traytender.dashboard.limits.LimitsDesk;
import traytender.dashboard.notice.PeopleNotices;
import traytender.dashboard.page.BenchActs;
import traytender.dashboard.page.BenchFacts.Change;
import traytender.dashboard.setup.Sensors;
import traytender.dashboard.setup.SiteDesk;
import traytender.ingest.store.Act;
import traytender.ingest.store.Act.Mark;
import traytender.ingest.store.JournalStore;
import traytender.ingest.store.KeptEntry;

/** What the grower does from the page: on disk first, then to the watch. <b>Safe from any thread.</b> */
final class Acts implements BenchActs {
    private final JournalStore journal;
    private final Marks marks;
    private final LimitsDesk limits;
    private final PeopleNotices people;
    private final SiteDesk site;
    private final Sensors sensors;
    private final Watching watching;
    private final Listeners listeners;

    Acts(
            JournalStore journal,
            Marks marks,
            LimitsDesk limits,
            PeopleNotices people,
            SiteDesk site,
            Sensors sensors,
            Watching watching,
            Listeners listeners) {
        this.journal = journal;
        this.marks = marks;
        this.limits = limits;
        this.people = people;
        this.site = site;
        this.sensors = sensors;
        this.watching = watching;
        this.listeners = listeners;
    }

    @Override
    public List<KeptEntry> write(List<JournalEntry> entries) {
        List<KeptEntry> kept = journal.write(entries);
        changed(entries);
        return kept;
    }

    @Override
    public Optional<KeptEntry> withdraw(long number) {
        return setWithdrawn(number, true);
    }

    @Override
    public Optional<KeptEntry> bringBack(long number) {
        return setWithdrawn(number, false);
    }

    private Optional<KeptEntry> setWithdrawn(long number, boolean withdrawn) {
        if (journal.setWithdrawn(List.of(number), withdrawn) > 0) {
            journal.find(number).ifPresent(kept -> changed(List.of(kept.entry())));
        }
        return journal.find(number);
    }

    @Override
    public Optional<KeptEntry> correct(long number, JournalEntry right) {
        Optional<KeptEntry> wrong = journal.find(number).filter(KeptEntry::counts);
        if (wrong.isEmpty() || wrong.get().entry().equals(right)) {
            return wrong;
        }
        journal.correct(wrong.get().entry(), right);
        changed(List.of(wrong.get().entry(), right));
        return journal.find(number).map(KeptEntry::replacedBy).flatMap(by -> journal.find(by));
    }

    @Override
    public Act mark(Mark mark, @Nullable Instant until, List<String> alerts, List<JournalEntry> entries) {
        Act act = marks.write(mark, until, alerts, entries);
        if (!entries.isEmpty()) {
            changed(entries);
        }
        listeners.tell(Change.ALERTS);
        return act;
    }

    @Override
    public Optional<Act> undo(long act) {
        Optional<Act> undone = marks.undo(act);
        List<JournalEntry> entries = undone.stream()
                .flatMap(one -> one.entries().stream())
                .flatMap(number -> journal.find(number).stream())
                .map(KeptEntry::entry)
                .toList();
        if (!entries.isEmpty()) {
            changed(entries);
        }
        listeners.tell(Change.ALERTS);
        return undone;
    }

    @Override
    public LimitsDesk limits() {
        return limits;
    }

    @Override
    public PeopleNotices people() {
        return people;
    }

    @Override
    public SiteDesk siteDesk() {
        return site;
    }

    @Override
    public Sensors sensors() {
        return sensors;
    }

    private void changed(List<JournalEntry> entries) {
        watching.journal(entries);
        listeners.tell(Change.JOURNAL);
    }
}
