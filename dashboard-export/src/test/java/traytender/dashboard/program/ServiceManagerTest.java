package traytender.dashboard.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.testing.NeedsServer;

/** What systemd hears, on a socket like its own; perl listens, since Java 17 cannot. */
@NeedsServer({"systemd-notify", "perl"})
class ServiceManagerTest {
    private static final String LISTEN =
            "use Socket; socket(S, PF_UNIX, SOCK_DGRAM, 0) or die; bind(S, sockaddr_un($ARGV[0])) or die $!;"
                    + " $| = 1; print \"ready\\n\"; while (recv(S, $said, 4096, 0), length $said)"
                    + " { print \"$said\\n\" unless $said =~ /BARRIER/ }";

    @TempDir
    Path folder;

    private Process listener;
    private BufferedReader heard;
    private Map<String, String> environment;

    @BeforeEach
    void listen() throws IOException {
        Path socket = folder.resolve("notify");
        listener = new ProcessBuilder("perl", "-e", LISTEN, socket.toString()).start();
        heard = listener.inputReader();
        assertThat(heard.readLine()).isEqualTo("ready");
        environment = Map.of("NOTIFY_SOCKET", socket.toString(), "WATCHDOG_USEC", "200000");
    }

    @AfterEach
    void end() {
        listener.destroyForcibly();
    }

    @Test
    void systemd_hearsThatItIsUp_thatItWorks_andThatItStops() throws IOException {
        try (var manager = new ServiceManager(environment)) {
            manager.up(() -> true);

            assertThat(heard.readLine()).isEqualTo("READY=1");
            assertThat(heard.readLine()).isEqualTo("WATCHDOG=1");
            assertThat(heard.readLine()).isEqualTo("WATCHDOG=1");
        }
        assertThat(heard.lines().dropWhile("WATCHDOG=1"::equals).findFirst()).contains("STOPPING=1");
    }

    @Test
    void programThatNoLongerWorks_isNotVouchedFor() throws IOException {
        var works = new AtomicBoolean(true);
        try (var manager = new ServiceManager(environment)) {
            manager.up(() -> works.getAndSet(false));

            assertThat(heard.readLine()).isEqualTo("READY=1");
            assertThat(heard.readLine()).isEqualTo("WATCHDOG=1");
        }
        assertThat(heard.readLine()).isEqualTo("STOPPING=1");
    }
}
