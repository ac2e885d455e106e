package traytender.dashboard.program;

import java.net.URI;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The program, started anew when it has met damage in a database: the start reads the database through, sets it aside when it is
 * damaged indeed, and begins a new one, so that the watch goes on without anybody's hand. What was not acknowledged meanwhile the
 * broker sends again.
 *
 * <p><b>Safe from any thread.</b>
 */
public final class MendingProgram implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(MendingProgram.class);
    private static final long LOOK_SECONDS = 2;

    private final Supplier<Program> start;
    private final ScheduledExecutorService mender =
            Executors.newSingleThreadScheduledExecutor(task -> new Thread(task, "mender"));
    private final URI page;
    private final ServiceManager manager;
    private volatile @Nullable Program program;
    private boolean closed;

    private MendingProgram(Supplier<Program> start, Program program, ServiceManager manager) {
        this.start = start;
        this.manager = manager;
        this.program = program;
        this.page = program.page();
    }

    /**
     * Starts the program and looks after it.
     *
     * @param start starts the program; what it throws the first time is thrown on, later it is tried again
     * @param manager told that it is up, as long as it works
     */
    public static MendingProgram start(Supplier<Program> start, ServiceManager manager) {
        var mending = new MendingProgram(start, start.get(), manager);
        ScheduledFuture<?> unused =
                mending.mender.scheduleWithFixedDelay(mending::look, LOOK_SECONDS, LOOK_SECONDS, TimeUnit.SECONDS);
        manager.up(mending::isAlive);
        return mending;
    }

    private synchronized void look() {
        try {
            if (closed || (program != null && !program.hasMetDamage())) {
                return;
            }
            stop();
            program = start.get();
            log.info("Started anew");
        } catch (RuntimeException e) {
            log.error("The program cannot start anew: {}; trying again", e.getMessage());
        }
    }

    private void stop() {
        Program damaged = program;
        program = null;
        if (damaged == null) {
            return;
        }
        log.error("A database is damaged; starting anew to set it aside");
        try {
            damaged.close();
        } catch (RuntimeException e) {
            log.warn("With a damaged database the program did not stop cleanly: {}", e.getMessage());
        }
    }

    /** Whether its threads live; not while it is being started anew, which takes care of itself. */
    private boolean isAlive() {
        Program running = program;
        return running == null || running.isAlive();
    }

    /** Where a browser on this machine finds the page. */
    public URI page() {
        return page;
    }

    @Override
    public void close() {
        manager.close();
        mender.shutdown();
        synchronized (this) {
            closed = true;
            if (program != null) {
                program.close();
            }
        }
    }
}
