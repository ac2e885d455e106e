package traytender.dashboard.program;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Tells systemd that the program is up, still works, and stops, where systemd has started it and asked for that (sd_notify(3),
 * sd_watchdog_enabled(3)). Java 17 has no datagram sockets for it, so its own command {@code systemd-notify} carries the word; the
 * unit needs {@code NotifyAccess=all}. <b>Safe from any thread.</b>
 */
public final class ServiceManager implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(ServiceManager.class);
    private static final String COMMAND = "systemd-notify";
    private static final Duration PATIENCE = Duration.ofSeconds(10);

    private final Map<String, String> environment;
    private final ScheduledExecutorService thread = Executors.newSingleThreadScheduledExecutor(task -> {
        var made = new Thread(task, "service-manager");
        made.setDaemon(true);
        return made;
    });

    /** @param environment as the program was started with */
    public ServiceManager(Map<String, String> environment) {
        this.environment = Map.copyOf(environment);
    }

    /**
     * The program is up. From now on, twice in each {@code WatchdogSec}, it is said that it works; when it no longer does, nothing is
     * said, and systemd starts it anew.
     */
    public void up(BooleanSupplier works) {
        if (!isAsked()) {
            return;
        }
        tell("READY=1");
        String watchdog = environment.get("WATCHDOG_USEC");
        if (watchdog != null && watchdog.matches("\\d{1,18}")) {
            long half = Math.max(1, Long.parseLong(watchdog) / 2);
            ScheduledFuture<?> unused = thread.scheduleAtFixedRate(() -> beat(works), 0, half, TimeUnit.MICROSECONDS);
        }
    }

    private boolean isAsked() {
        return environment.get("NOTIFY_SOCKET") != null;
    }

    /** A throw would end the schedule, which is as good as a program that no longer works. */
    private void beat(BooleanSupplier works) {
        if (works.getAsBoolean()) {
            tell("WATCHDOG=1");
        } else {
            log.error("A part of the program has ended; systemd is to start it anew");
        }
    }

    private void tell(String word) {
        try {
            var command = new ProcessBuilder(List.of(COMMAND, word))
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD);
            command.environment().putAll(environment);
            Process told = command.start();
            if (!told.waitFor(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
                told.destroyForcibly();
                log.warn("systemd does not take {}", word);
            } else if (told.exitValue() != 0) {
                log.warn("systemd does not take {}: {} ends with {}", word, COMMAND, told.exitValue());
            }
        } catch (IOException e) {
            log.warn("systemd cannot be told {}: {}", word, e.getMessage());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        thread.shutdownNow();
        if (isAsked()) {
            tell("STOPPING=1");
        }
    }
}
