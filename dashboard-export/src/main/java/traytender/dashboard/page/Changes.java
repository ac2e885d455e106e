package traytender.dashboard.page;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.sse.SseClient;
import java.util.EnumSet;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.SynchronousQueue;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.dashboard.page.BenchFacts.Change;
import traytender.dashboard.record.Json;

/**
 * Tells every open page what has changed, as Server-Sent Events named {@code alerts}, {@code trays}, {@code counts}, {@code journal}, and
 * {@code beat} when there was nothing to tell, so that a page can notice when it is cut off.
 *
 * <p>However often something changes, a page is told at most once a {@link #PACE_MS}; a page that reads slowly is told the
 * newest state when it is ready for it, and holds up nobody else. <b>Safe from any thread.</b>
 */
final class Changes implements AutoCloseable {
    /** Shortest time between two tellings, in milliseconds: our choice; a person sees no difference. */
    private static final long PACE_MS = 500;

    /** Tellings between two beats: 10 s. */
    private static final int BEAT_EVERY = 20;

    /** Pages open at once; more are answered 503. Our choice: a few people with a few tabs each. */
    static final int MOST_PAGES = 60;

    private static final Logger LOG = LoggerFactory.getLogger(Changes.class);

    private final BenchFacts facts;
    private final Set<OpenPage> pages = ConcurrentHashMap.newKeySet();
    private final Set<Change> changed = ConcurrentHashMap.newKeySet();
    private final BenchFacts.Subscription subscription;
    private final ScheduledExecutorService clock = Executors.newSingleThreadScheduledExecutor(named("page-changes"));
    private final ThreadPoolExecutor tellers = new ThreadPoolExecutor(
            0, 2 * MOST_PAGES, 30, TimeUnit.SECONDS, new SynchronousQueue<>(), named("page-teller"));
    private int ticks;

    Changes(BenchFacts facts) {
        this.facts = facts;
        this.subscription = facts.listen(changed::add);
        var unused = clock.scheduleWithFixedDelay(this::tick, PACE_MS, PACE_MS, TimeUnit.MILLISECONDS);
    }

    /** A page begins to listen; it is told everything once. */
    void open(SseClient client) {
        if (pages.size() >= MOST_PAGES) {
            client.ctx().status(503);
            client.close();
            return;
        }
        client.keepAlive();
        var page = new OpenPage(client);
        client.onClose(() -> pages.remove(page));
        pages.add(page);
        page.tell(EnumSet.allOf(Change.class), false);
    }

    private void tick() {
        var news = EnumSet.noneOf(Change.class);
        for (Change change : Change.values()) {
            if (changed.remove(change)) {
                news.add(change);
            }
        }
        boolean beat = ++ticks % BEAT_EVERY == 0;
        if (!news.isEmpty() || beat) {
            pages.forEach(page -> page.tell(news, beat));
        }
    }

    private void send(SseClient client, Change change) {
        switch (change) {
            case ALERTS -> client.sendEvent("alerts", Json.write(Api.openAlerts(facts)));
            case TRAYS -> client.sendEvent("trays", Json.write(now()));
            case JOURNAL -> client.sendEvent("journal", Json.write(now()));
            case COUNTS -> client.sendEvent("counts", Json.write(new BenchJson(facts).counts()));
        }
    }

    private JsonNode now() {
        return Json.object().set("now", Json.time(facts.now()));
    }

    @Override
    public void close() {
        subscription.close();
        clock.shutdownNow();
        tellers.shutdownNow();
        pages.forEach(page -> page.client.close());
    }

    private static ThreadFactory named(String role) {
        var number = new AtomicInteger();
        return work -> {
            var thread = new Thread(work, role + "-" + number.incrementAndGet());
            thread.setDaemon(true);
            return thread;
        };
    }

    /** One listening page. At most one thread tells it at a time. */
    private final class OpenPage {
        private final SseClient client;
        private final EnumSet<Change> untold = EnumSet.noneOf(Change.class);
        private boolean beatDue;
        private boolean telling;

        OpenPage(SseClient client) {
            this.client = client;
        }

        synchronized void tell(Set<Change> news, boolean beat) {
            untold.addAll(news);
            beatDue |= beat;
            if (!telling) {
                telling = true;
                tellers.execute(this::tellAll);
            }
        }

        private void tellAll() {
            try {
                tellUntold();
            } catch (RuntimeException e) {
                // Telling stays set, so this page is told no more; its browser asks again by itself.
                LOG.warn("A page could not be told what changed; its connection is closed", e);
                client.close();
            }
        }

        private void tellUntold() {
            while (!client.terminated()) {
                EnumSet<Change> news;
                synchronized (this) {
                    if (untold.isEmpty() && !beatDue) {
                        telling = false;
                        return;
                    }
                    news = EnumSet.copyOf(untold);
                    untold.clear();
                    beatDue = false;
                }
                news.forEach(change -> send(client, change));
                client.sendEvent("beat", Json.write(now()));
            }
        }
    }
}
