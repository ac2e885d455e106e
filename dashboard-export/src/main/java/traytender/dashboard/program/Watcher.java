package traytender.dashboard.program;

import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.rules.Watch;

/**
 * The thread that owns the watch. It evaluates stored history first, then takes readings and journal entries as they come, and
 * tells the watch the time once a second, or at once when what came changes a minute that was looked at. Its queue is bounded: when
 * it is full, whoever brings readings waits.
 *
 * <p><b>Safe from any thread.</b>
 */
final class Watcher implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(Watcher.class);
    private static final int QUEUE = 256;
    private static final int HISTORY_BATCH = 5_000;
    private static final long TICK_NANOS = TimeUnit.SECONDS.toNanos(1);
    /** Between two looks at late readings, and at least so many times as long as the last look took; our choice. */
    private static final long LATE_NANOS = TimeUnit.MILLISECONDS.toNanos(50);

    private static final int LATE_TIMES = 5;
    private static final Duration LONGEST_STOP = Duration.ofSeconds(30);

    private final SiteFolder folder;
    private final Watch watch;
    private final ReadingSource stored;
    private final AlertKeeper keeper;
    private final Runnable afterTick;
    private final Predicate<Watcher> turn;
    private final Clock clock;
    private final Handover handover = new Handover();
    private final BlockingQueue<Runnable> queue = new ArrayBlockingQueue<>(QUEUE);
    private final Thread thread = new Thread(this::work, "watcher");
    /** Of the oldest reading evaluated; the watcher's thread alone uses it. */
    private long firstMs = Long.MAX_VALUE;

    private volatile boolean stopping;
    /** Set when what history shows can be seen, which is a moment after the handover. */
    private volatile boolean evaluated;

    private volatile @Nullable String trouble;

    /**
     * A watcher that has not started.
     *
     * @param stored all readings on disk
     * @param keeper keeps the alerts and tells of them; called on the watcher's thread only
     * @param afterTick told when the watch has looked at the bench again; must return at once
     * @param turn asked once, when stored history is evaluated, whether this watcher is still wanted; on the watcher's thread
     */
    Watcher(
            SiteFolder folder,
            List<JournalEntry> journal,
            ReadingSource stored,
            AlertKeeper keeper,
            Runnable afterTick,
            Predicate<Watcher> turn,
            Clock clock) {
        this.folder = folder;
        this.watch = new Watch(folder, journal, keeper::changed);
        this.stored = stored;
        this.keeper = keeper;
        this.afterTick = afterTick;
        this.turn = turn;
        this.clock = clock;
    }

    void start() {
        thread.start();
    }

    /** The site it judges by. */
    SiteFolder folder() {
        return folder;
    }

    /** What the watch knows; only its views, which any thread may read. */
    Watch watch() {
        return watch;
    }

    /** Whether stored history is evaluated and readings are judged as they come. */
    boolean isLive() {
        return evaluated;
    }

    boolean isAlive() {
        return thread.isAlive();
    }

    /** Why the watch cannot do its work; null while all is well. */
    @Nullable
    String trouble() {
        return trouble;
    }

    /** Takes readings that are on disk; waits while the queue is full. */
    void readings(List<Reading> readings) {
        if (!handover.waitsInStore(readings)) {
            put(() -> watch.accept(readings));
        }
    }

    /**
     * Takes changes of the journal that are on disk.
     *
     * @param all every entry that counts, asked for when its turn has come
     * @param changed those that were written or withdrawn
     */
    void journal(Supplier<List<JournalEntry>> all, List<JournalEntry> changed) {
        put(() -> {
            watch.journal(all.get(), changed);
            tick();
        });
    }

    private void put(Runnable task) {
        try {
            queue.put(task);
        } catch (InterruptedException e) {
            // What is put here is on disk already; the next start evaluates it.
            Thread.currentThread().interrupt();
        }
    }

    private void work() {
        try {
            guarded(this::history);
            long next = System.nanoTime();
            long soonest = next;
            while (!stopping || !queue.isEmpty()) {
                long due = mustLookAgain() ? soonest : next;
                Runnable task = queue.poll(Math.max(0, due - System.nanoTime()), TimeUnit.NANOSECONDS);
                if (task != null) {
                    guarded(task);
                }
                long start = System.nanoTime();
                if (start - (mustLookAgain() ? soonest : next) >= 0) {
                    // History that could not be read is read again, or the watch would never go live.
                    guarded(evaluated ? this::tick : this::history);
                    next = System.nanoTime() + TICK_NANOS;
                    soonest = System.nanoTime() + Math.max(LATE_NANOS, LATE_TIMES * (System.nanoTime() - start));
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } finally {
            watch.close();
        }
    }

    private boolean mustLookAgain() {
        return evaluated && watch.mustLookAgain();
    }

    /** One bad reading or rule must not end the watch; the grower is told through the program's health. */
    private void guarded(Runnable task) {
        try {
            task.run();
            trouble = null;
        } catch (RuntimeException e) {
            trouble = "the watch failed: " + e;
            log.error("The watch failed", e);
        }
    }

    private void history() {
        feed(Long.MIN_VALUE);
        OptionalLong missedFrom = handover.goLive();
        if (missedFrom.isPresent()) {
            feed(missedFrom.getAsLong());
        }
        if (stopping) {
            return;
        }
        watch.tick(clock.instant());
        if (!turn.test(this)) {
            stopping = true;
            return;
        }
        keeper.goLive(watch.alerts(), firstMs);
        evaluated = true;
        afterTick.run();
    }

    private void feed(long fromMs) {
        var batch = new ArrayList<Reading>(HISTORY_BATCH);
        stored.scan(fromMs, Long.MAX_VALUE, reading -> {
            firstMs = Math.min(firstMs, reading.timeMs());
            batch.add(reading);
            if (batch.size() == HISTORY_BATCH) {
                flush(batch);
            }
        });
        flush(batch);
    }

    private void flush(List<Reading> batch) {
        if (!stopping) {
            watch.accept(List.copyOf(batch));
        }
        batch.clear();
    }

    private void tick() {
        watch.tick(clock.instant());
        keeper.save();
        afterTick.run();
    }

    /** Asks it to end, without waiting until it has. */
    void end() {
        stopping = true;
    }

    @Override
    public void close() {
        end();
        try {
            thread.join(LONGEST_STOP.toMillis());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
