package traytender.dashboard.program;

import java.time.Clock;
import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.Act;
import traytender.ingest.store.Act.Mark;
import traytender.ingest.store.ActStore;

/** What the grower did about alerts, on disk and at hand. <b>Safe from any thread.</b> */
final class Marks {
    private final ActStore store;
    private final Clock clock;
    /** By alert, the newest act that was not undone. */
    private volatile Map<String, Act> newest;

    Marks(ActStore store, Clock clock) {
        this.store = store;
        this.clock = clock;
        this.newest = newest(store.acts());
    }

    private static Map<String, Act> newest(List<Act> acts) {
        var byAlert = new HashMap<String, Act>();
        for (Act act : acts) {
            if (!act.undone()) {
                act.alerts().forEach(alert -> byAlert.put(alert, act));
            }
        }
        return Map.copyOf(byAlert);
    }

    /** By alert, what was done about it last and was not undone, also where the alert asks again by now. */
    Map<String, Act> newest() {
        return newest;
    }

    /** Ids of the alerts that the grower has answered, and that do not ask again yet. */
    Set<String> seen() {
        Instant now = clock.instant();
        var seen = new HashSet<String>();
        newest.forEach((alert, act) -> {
            if (act.holds(now)) {
                seen.add(alert);
            }
        });
        return seen;
    }

    synchronized Act write(Mark mark, @Nullable Instant until, List<String> alerts, List<JournalEntry> entries) {
        Act act = store.write(mark, clock.instant(), until, alerts, entries);
        newest = newest(store.acts());
        return act;
    }

    synchronized Optional<Act> undo(long number) {
        Optional<Act> undone = store.undo(number);
        newest = newest(store.acts());
        return undone;
    }
}
