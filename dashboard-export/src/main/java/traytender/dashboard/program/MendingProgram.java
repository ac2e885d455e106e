package traytender.dashboard.program;

import java.net.URI;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.folder.SiteFolder;

/**
 * The program, started anew when it has met damage in a database, when its disk failed and can be written again, or when its site
 * names another broker or store, at the pace of {@link StartPace}. The start reads a database that may be damaged through, sets it
 * aside when it is, and begins a new one, so that the watch goes on without anybody's hand. What was not acknowledged meanwhile the
 * broker sends again.
 *
 * <p><b>Safe from any thread.</b>
 */
public final class MendingProgram implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(MendingProgram.class);
    private static final long LOOK_SECONDS = 2;

    private final Function<SiteFolder, Program> start;
    private SiteFolder folder;
    private final ScheduledExecutorService mender =
            Executors.newSingleThreadScheduledExecutor(task -> new Thread(task, "mender"));
    private final StartPace pace = new StartPace(System::nanoTime);
    private final URI page;
    private final ServiceManager manager;
    private volatile @Nullable Program program;
    private boolean closed;

    private MendingProgram(Function<SiteFolder, Program> start, SiteFolder folder, ServiceManager manager) {
        this.start = start;
        this.folder = folder;
        this.manager = manager;
        Program program = start.apply(folder);
        this.program = program;
        this.page = program.page();
    }

    /**
     * Starts the program and looks after it.
     *
     * @param folder the site to begin with
     * @param start starts the program with a site; what it throws the first time is thrown on, later it is tried again
     * @param manager told that it is up, as long as it works
     */
    public static MendingProgram start(SiteFolder folder, Function<SiteFolder, Program> start, ServiceManager manager) {
        var mending = new MendingProgram(start, folder, manager);
        ScheduledFuture<?> unused =
                mending.mender.scheduleWithFixedDelay(mending::look, LOOK_SECONDS, LOOK_SECONDS, TimeUnit.SECONDS);
        manager.up(mending::isAlive);
        return mending;
    }

    private synchronized void look() {
        try {
            if (closed || (program != null && !program.needsNewStart()) || !pace.isOver()) {
                return;
            }
            pace.started();
            stop();
            program = start.apply(folder);
            log.info("Started anew");
        } catch (RuntimeException e) {
            log.error("The program cannot start anew: {}; trying again", e.getMessage());
        }
    }

    private void stop() {
        Program before = program;
        program = null;
        if (before == null) {
            return;
        }
        folder = before.wanted();
        if (before.hasMetDamage()) {
            log.error("A database is damaged; starting anew to set it aside");
        }
        try {
            before.close();
        } catch (RuntimeException e) {
            log.warn("The program did not stop cleanly before it starts anew: {}", e.getMessage());
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
