package traytender.dashboard.notice;

import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpClient.Redirect;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import traytender.config.notice.Heartbeat;

/**
 * Asks for an address of the grower's choice as long as the program does its work. While it does not, nothing is sent: silence is the
 * alarm. <b>One thread of its own</b>, {@code heartbeat}; {@link #trouble} may be asked from any.
 */
public final class Heartbeats implements AutoCloseable {
    private static final Duration PATIENCE = Duration.ofSeconds(20);

    private final @Nullable Heartbeat settings;
    private final BooleanSupplier isWell;
    private final HttpClient client = HttpClient.newBuilder()
            .connectTimeout(PATIENCE)
            .followRedirects(Redirect.NORMAL)
            .build();
    private final ScheduledExecutorService thread =
            Executors.newSingleThreadScheduledExecutor(task -> new Thread(task, "heartbeat"));
    private volatile @Nullable String trouble;

    /** @param settings null for no heartbeat */
    public Heartbeats(@Nullable Heartbeat settings, BooleanSupplier isWell) {
        this.settings = settings;
        this.isWell = isWell;
    }

    /** Begins; does nothing where no address is given. */
    public void start() {
        if (settings != null) {
            long every = settings.every().toMillis();
            ScheduledFuture<?> unused = thread.scheduleAtFixedRate(this::beat, 0, every, TimeUnit.MILLISECONDS);
        }
    }

    /** Why the last heartbeat was not taken; empty while all is well. */
    public Optional<String> trouble() {
        return Optional.ofNullable(trouble);
    }

    /** One heartbeat, on the calling thread. A throw would end the schedule without a word. */
    void beat() {
        Heartbeat to = settings;
        try {
            if (to != null && isWell.getAsBoolean()) {
                trouble = send(to);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (RuntimeException e) {
            trouble = e.toString();
        }
    }

    private @Nullable String send(Heartbeat to) throws InterruptedException {
        try {
            HttpRequest request =
                    HttpRequest.newBuilder(to.url()).timeout(PATIENCE).GET().build();
            int status = client.send(request, BodyHandlers.discarding()).statusCode();
            return status / 100 == 2 ? null : to.url().getHost() + " answers " + status;
        } catch (IOException e) {
            return to.url().getHost() + " cannot be reached: " + e;
        }
    }

    @Override
    public void close() {
        thread.shutdownNow();
    }
}
