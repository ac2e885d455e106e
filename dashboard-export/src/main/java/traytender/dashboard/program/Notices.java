package traytender.dashboard.program;

import java.nio.charset.StandardCharsets;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Sends what the program says to the broker, from a thread of its own, so that a broker that is away holds nothing up. Of each
 * topic only the newest message waits; it is tried again until the broker has it.
 *
 * <p><b>Safe from any thread.</b>
 */
final class Notices implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(Notices.class);
    private static final long RETRY_MS = 1_000;
    private static final long LONGEST_STOP_MS = 5_000;

    private final Publisher publisher;
    private final Map<String, Notice> waiting = new LinkedHashMap<>();
    private final Thread thread = new Thread(this::work, "notices");
    private boolean stopping;

    /** Hands one message to the broker and returns when the broker has it. */
    @FunctionalInterface
    interface Publisher {
        /** Throws a {@link RuntimeException} when the broker does not take it. */
        void publish(String topic, byte[] payload, boolean retained);
    }

    private record Notice(String topic, String text, boolean retained) {}

    Notices(Publisher publisher) {
        this.publisher = publisher;
    }

    void start() {
        thread.start();
    }

    /**
     * Sends a message as soon as the broker takes it.
     *
     * @param text empty to clear a retained message
     */
    synchronized void send(String topic, String text, boolean retained) {
        waiting.remove(topic);
        waiting.put(topic, new Notice(topic, text, retained));
        notifyAll();
    }

    private void work() {
        try {
            for (Notice notice = next(); notice != null; notice = next()) {
                if (!sent(notice) && keep(notice)) {
                    TimeUnit.MILLISECONDS.sleep(RETRY_MS);
                }
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Sends what waits now, on the calling thread, once each; for where no thread has been started. */
    void drain() {
        List<Notice> now;
        synchronized (this) {
            now = List.copyOf(waiting.values());
            waiting.clear();
        }
        for (Notice notice : now) {
            sent(notice);
        }
    }

    private synchronized @Nullable Notice next() throws InterruptedException {
        while (waiting.isEmpty() && !stopping) {
            wait();
        }
        Iterator<Notice> first = waiting.values().iterator();
        if (!first.hasNext()) {
            return null;
        }
        Notice notice = first.next();
        first.remove();
        return notice;
    }

    private boolean sent(Notice notice) {
        try {
            publisher.publish(notice.topic, notice.text.getBytes(StandardCharsets.UTF_8), notice.retained);
            return true;
        } catch (RuntimeException e) {
            log.debug("{} has to wait: {}", notice.topic, e.getMessage());
            return false;
        }
    }

    /** Puts it back, unless there is a newer one by now or the program stops; false when there is no use in trying again. */
    private synchronized boolean keep(Notice notice) {
        if (stopping) {
            waiting.clear();
            return false;
        }
        waiting.putIfAbsent(notice.topic, notice);
        return true;
    }

    /** Sends what waits, once, and ends. */
    @Override
    public void close() {
        synchronized (this) {
            stopping = true;
            notifyAll();
        }
        try {
            thread.join(LONGEST_STOP_MS);
            thread.interrupt();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
