package traytender.dashboard.command;

import java.util.concurrent.CountDownLatch;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Keeps a program running until a signal (SIGTERM, SIGINT) asks it to stop, and stops it cleanly then, with status 0. */
final class StopSignal {
    private static final Logger log = LoggerFactory.getLogger(StopSignal.class);

    private StopSignal() {}

    /**
     * Never returns: the process ends when the signal has been obeyed.
     *
     * @param ready what to do once the signal is listened for
     */
    static void await(AutoCloseable program, Runnable ready) {
        Runtime.getRuntime().addShutdownHook(new Thread(() -> stop(program), "stop"));
        ready.run();
        try {
            new CountDownLatch(1).await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** A clean stop is a success, but Java's own status after a signal is 128 and the signal's number: so the hook ends the process. */
    private static void stop(AutoCloseable program) {
        try {
            program.close();
            log.info("Stopped");
            Runtime.getRuntime().halt(0);
        } catch (Exception e) {
            log.error("Stopped, but not cleanly", e);
            Runtime.getRuntime().halt(1);
        }
    }
}
