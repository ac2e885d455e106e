package traytender.dashboard.program;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.ingest.store.SiteStore;
import traytender.rules.AlertChange;
import traytender.rules.Watch;

/**
 * The watcher that counts. When the past must be judged anew (other limits, a journal entry about days ago), a second one
 * evaluates stored history beside it and takes its place when it has caught up; until then the first one watches on.
 *
 * <p><b>Safe from any thread.</b>
 */
final class Watching implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(Watching.class);
    /** An entry about longer ago is beyond what the live watch runs again by itself, with an hour to spare. */
    private static final Duration REACH = Duration.ofHours(47);

    private final SiteStore store;
    private final Consumer<AlertChange> told;
    private final Runnable afterTick;
    private final Clock clock;
    private final List<Watcher> ended = new ArrayList<>();
    private @Nullable Watcher next;
    private boolean closed;

    /** Set when a watcher that was live has been followed by another: what is told stays true over the change. */
    private volatile boolean wasLive;

    private volatile SiteFolder folder;
    private volatile Watcher current;
    /** Those who are given every reading: the current one, and the next one while there is one. */
    private volatile List<Watcher> receivers;

    /**
     * A watcher over the site's store, not started.
     *
     * @param told told of every change of an alert
     * @param afterTick told when the watch has looked at the bench again; must return at once
     */
    Watching(SiteFolder folder, SiteStore store, Consumer<AlertChange> told, Runnable afterTick, Clock clock) {
        this.folder = folder;
        this.store = store;
        this.told = told;
        this.afterTick = afterTick;
        this.clock = clock;
        this.current = watcher(folder);
        this.receivers = List.of(current);
    }

    private Watcher watcher(SiteFolder of) {
        var keeper = new AlertKeeper(store.journal(), told);
        return new Watcher(
                of,
                store.journal().entries(),
                store.readings().source(of.site()),
                keeper,
                afterTick,
                this::takeTurn,
                clock);
    }

    void start() {
        current.start();
    }

    /** What the watch knows; only its views. */
    Watch watch() {
        return current.watch();
    }

    /** The site by which what is seen now was judged. */
    SiteFolder judged() {
        return current.folder();
    }

    /** The site with the crops it is judged by, or is about to be. */
    SiteFolder folder() {
        return folder;
    }

    boolean isLive() {
        return wasLive || current.isLive();
    }

    /** Whether stored history is being judged anew at the moment. */
    synchronized boolean isJudgingAnew() {
        return next != null;
    }

    /** Whether its thread has not ended. */
    boolean isAlive() {
        return current.isAlive();
    }

    @Nullable
    String trouble() {
        return current.trouble();
    }

    /** Takes readings that are on disk; waits while a watcher's queue is full. */
    void readings(List<Reading> readings) {
        receivers.forEach(watcher -> watcher.readings(readings));
    }

    /** Takes entries that were written or withdrawn, which is on disk. */
    void journal(List<JournalEntry> changed) {
        Instant reach = clock.instant().minus(REACH);
        if (changed.stream().anyMatch(entry -> entry.time().isBefore(reach))) {
            judgeAnew(folder.crops());
        } else {
            receivers.forEach(watcher -> watcher.journal(store.journal()::entries, changed));
        }
    }

    /** Judges all stored readings by these limits and the journal as it is, and goes on with them. */
    synchronized void judgeAnew(Crops crops) {
        judgeAnew(new SiteFolder(folder.path(), folder.site(), crops));
    }

    /** Judges all stored readings as another site says, and goes on with it; until then the one before is in force. */
    synchronized void judgeAnew(SiteFolder other) {
        if (closed) {
            return;
        }
        folder = other;
        if (next != null) {
            next.end();
            ended.add(next);
        }
        Watcher started = watcher(folder);
        next = started;
        // From now on it remembers what it has to read again.
        receivers = List.of(current, started);
        started.start();
        log.info("Stored readings are judged anew");
    }

    /** History is evaluated: the first watcher has its turn by right, another one only while it is still wanted. */
    private synchronized boolean takeTurn(Watcher caughtUp) {
        if (caughtUp == current) {
            return true;
        }
        if (caughtUp != next || closed) {
            return false;
        }
        Watcher before = current;
        wasLive |= before.isLive();
        current = caughtUp;
        next = null;
        receivers = List.of(caughtUp);
        // It must not write any more when the other one begins to.
        before.close();
        return true;
    }

    @Override
    public void close() {
        List<Watcher> all;
        synchronized (this) {
            closed = true;
            all = new ArrayList<>(ended);
            if (next != null) {
                all.add(next);
            }
            all.add(current);
        }
        all.forEach(Watcher::close);
    }
}
