package traytender.dashboard.notice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.time.Duration;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import traytender.config.notice.Heartbeat;

/** Heartbeats to a real web server. */
class HeartbeatsTest {
    private final AtomicInteger beats = new AtomicInteger();
    private final AtomicBoolean isWell = new AtomicBoolean(true);
    private volatile int answer = 200;
    private HttpServer watcher;
    private Heartbeats heartbeats;

    @BeforeEach
    void listen() throws IOException {
        watcher = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        watcher.createContext("/alder", exchange -> {
            beats.incrementAndGet();
            exchange.sendResponseHeaders(answer, -1);
            exchange.close();
        });
        watcher.start();
        var url = URI.create("http://127.0.0.1:" + watcher.getAddress().getPort() + "/alder");
        heartbeats = new Heartbeats(new Heartbeat(url, Duration.ofHours(1)), isWell::get);
    }

    @AfterEach
    void close() {
        heartbeats.close();
        watcher.stop(0);
    }

    @Test
    void program_thatIsWell_saysSoAtOnce() {
        heartbeats.start();

        await().until(() -> beats.get() == 1);
        assertThat(heartbeats.trouble()).isEmpty();
    }

    @Test
    void program_thatIsNotWell_isSilent() {
        isWell.set(false);

        heartbeats.beat();

        assertThat(beats).hasValue(0);
    }

    @Test
    void watcherThatDoesNotTakeIt_isTold_untilItDoes() {
        answer = 503;
        heartbeats.beat();
        assertThat(heartbeats.trouble())
                .hasValueSatisfying(why -> assertThat(why).contains("answers 503"));

        answer = 204;
        heartbeats.beat();
        assertThat(heartbeats.trouble()).isEmpty();

        watcher.stop(0);
        heartbeats.beat();
        assertThat(heartbeats.trouble())
                .hasValueSatisfying(why -> assertThat(why).contains("cannot be reached"));
    }
}
