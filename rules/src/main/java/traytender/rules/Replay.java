package traytender.rules;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;

/**
 * Runs the rules over stored readings, from the first to the newest, in one pass in order of time. Nothing is kept but the
 * state of each tray and room, so the length of the history does not matter. Trays and rooms do not depend on each other: they are
 * parted among as many threads as there are processors, and the answer is the same for any number of them.
 */
public final class Replay {
    /** Readings handed over at once, some hundred kilobytes; our choice. While one lot is judged the next is read. */
    private static final int LOT = 8_192;

    private final List<ReplayShare> shares = new ArrayList<>();
    private final List<Future<?>> atWork = new ArrayList<>();
    private final ExecutorService threads;
    private List<Reading> lot = new ArrayList<>(LOT);

    private Replay(SiteFolder folder, Crops crops, List<JournalEntry> journal, int parts) {
        var number = new AtomicInteger();
        threads = Executors.newFixedThreadPool(parts, task -> {
            var thread = new Thread(task, "replay-" + number.incrementAndGet());
            thread.setDaemon(true);
            return thread;
        });
        for (int part = 0; part < parts; part++) {
            shares.add(new ReplayShare(folder, crops, journal, part, parts));
        }
    }

    /**
     * Every alert the readings give, in order of opening.
     *
     * @param crops limits to judge by, which may be others than the site's
     */
    public static List<Alert> run(SiteFolder folder, Crops crops, List<JournalEntry> journal, ReadingSource readings) {
        int units = folder.site().trays().size() + folder.site().rooms().size();
        int parts = Math.max(1, Math.min(units, Runtime.getRuntime().availableProcessors()));
        return run(folder, crops, journal, readings, parts);
    }

    /** The same on a given number of threads. */
    static List<Alert> run(
            SiteFolder folder, Crops crops, List<JournalEntry> journal, ReadingSource readings, int parts) {
        var replay = new Replay(folder, crops, journal, parts);
        try {
            readings.scan(Long.MIN_VALUE, Long.MAX_VALUE, replay::take);
            return replay.finish();
        } finally {
            replay.end();
        }
    }

    private void take(Reading reading) {
        lot.add(reading);
        if (lot.size() == LOT) {
            handOver();
        }
    }

    private void handOver() {
        await();
        List<Reading> next = lot;
        lot = new ArrayList<>(LOT);
        for (ReplayShare share : shares) {
            atWork.add(threads.submit(() -> next.forEach(share::take)));
        }
    }

    private List<Alert> finish() {
        handOver();
        await();
        var alerts = new ArrayList<Alert>();
        shares.forEach(share -> alerts.addAll(share.finish()));
        alerts.sort(ORDER);
        return List.copyOf(alerts);
    }

    /** Waits until the lot before is judged. */
    private void await() {
        for (Future<?> one : atWork) {
            try {
                one.get();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new IllegalStateException("interrupted while judging", e);
            } catch (ExecutionException e) {
                if (e.getCause() instanceof RuntimeException failure) {
                    throw failure;
                }
                throw new IllegalStateException("judging failed", e.getCause());
            }
        }
        atWork.clear();
    }

    /** A judge may be closed only when nobody asks it any more: after a failure one lot may still be at work. */
    private void end() {
        threads.shutdown();
        try {
            if (threads.awaitTermination(1, TimeUnit.MINUTES)) {
                shares.forEach(ReplayShare::close);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** In order of opening; what opened together in an order of its own that never changes. */
    static final Comparator<Alert> ORDER = Comparator.comparing(Alert::opened)
            .thenComparing(Alert::place)
            .thenComparing(Alert::kind)
            .thenComparing(alert -> text(alert.zone()))
            .thenComparing(alert -> text(alert.reason()))
            .thenComparing(Alert::id);

    private static String text(@Nullable Object value) {
        return value == null ? "" : value.toString();
    }
}
