package traytender.dashboard.command;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Runs something until a signal (SIGTERM, SIGINT) asks it to stop, and stops it cleanly then, with status 0. */
final class UntilStopped {
    private static final Logger log = LoggerFactory.getLogger(UntilStopped.class);

    private final AtomicReference<@Nullable AutoCloseable> running = new AtomicReference<>();

    private UntilStopped() {}

    /**
     * Never returns unless the start fails: the process ends when the signal has been obeyed.
     *
     * @param start what is to run; whatever it throws is thrown on
     * @param ready told when it runs
     */
    static <T extends AutoCloseable> void run(Supplier<T> start, Consumer<T> ready) {
        var stopped = new UntilStopped();
        var hook = new Thread(stopped::stop, "stop");
        Runtime.getRuntime().addShutdownHook(hook);
        try {
            T started = start.get();
            stopped.running.set(started);
            ready.accept(started);
        } catch (RuntimeException e) {
            Runtime.getRuntime().removeShutdownHook(hook);
            throw e;
        }
        try {
            new CountDownLatch(1).await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /**
     * A clean stop is a success, but Java's own status after a signal is 128 and the signal's number: so the hook ends the process.
     * What is only starting is simply left: everything on disk is good after a kill too.
     */
    private void stop() {
        try {
            AutoCloseable started = running.get();
            if (started != null) {
                started.close();
            }
            log.info("Stopped");
            Runtime.getRuntime().halt(0);
        } catch (Exception e) {
            log.error("Stopped, but not cleanly", e);
            Runtime.getRuntime().halt(1);
        }
    }
}
