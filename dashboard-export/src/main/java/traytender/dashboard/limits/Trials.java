package traytender.dashboard.limits;

import java.time.Instant;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.ingest.store.Extent;
import traytender.ingest.store.SiteStore;

/**
 * Answers what other limits would have made different, one question after the other, beside the watch. Only the
 * newest few are remembered. <b>Safe from any thread.</b>
 */
public final class Trials implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(Trials.class);
    /** Questions remembered; our choice. An older one that still runs is cancelled. */
    private static final int MOST = 8;

    private static final long LONGEST_STOP_SECONDS = 5;

    private final Supplier<SiteFolder> folder;
    private final SiteStore store;
    private final Map<Integer, Trial> byNumber = new LinkedHashMap<>();
    private final ExecutorService worker = Executors.newSingleThreadExecutor(task -> new Thread(task, "limits-trial"));
    private int last;

    /** @param folder the site with the crops it is judged by now */
    public Trials(Supplier<SiteFolder> folder, SiteStore store) {
        this.folder = folder;
        this.store = store;
    }

    /**
     * Begins to answer.
     *
     * @param others limits in place of those in force
     * @param from alerts that opened from then on are compared
     * @param to up to then, exclusive
     * @return empty when there are no readings yet
     */
    public Optional<Trial> start(Crops others, Instant from, Instant to) {
        List<Extent> extents = store.history().extents();
        if (extents.isEmpty()) {
            return Optional.empty();
        }
        SiteFolder site = folder.get();
        var question = new Trial.Question(
                site,
                others,
                store.journal().entries(),
                store.history(),
                extents.stream()
                        .map(Extent::first)
                        .min(Comparator.naturalOrder())
                        .orElseThrow(),
                extents.stream()
                        .map(Extent::last)
                        .max(Comparator.naturalOrder())
                        .orElseThrow(),
                from,
                to);
        Trial trial;
        synchronized (this) {
            trial = new Trial(++last, question);
            byNumber.put(trial.number(), trial);
            if (byNumber.size() > MOST) {
                int oldest = byNumber.keySet().iterator().next();
                byNumber.remove(oldest).cancel();
            }
        }
        worker.execute(() -> run(trial));
        return Optional.of(trial);
    }

    private static void run(Trial trial) {
        try {
            trial.run();
        } catch (RuntimeException e) {
            log.error("Other limits could not be tried", e);
        }
    }

    /** The trial of that number, if it is still remembered. */
    public synchronized Optional<Trial> find(int number) {
        return Optional.ofNullable(byNumber.get(number));
    }

    @Override
    public void close() {
        synchronized (this) {
            byNumber.values().forEach(Trial::cancel);
        }
        worker.shutdownNow();
        try {
            // The store must not close under a trial that has not noticed yet.
            if (!worker.awaitTermination(LONGEST_STOP_SECONDS, TimeUnit.SECONDS)) {
                log.warn("A trial of other limits does not end");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
