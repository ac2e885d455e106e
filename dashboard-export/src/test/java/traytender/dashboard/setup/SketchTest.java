package traytender.dashboard.setup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.folder.SiteReader;
import traytender.dashboard.page.PageSettings;
import traytender.dashboard.program.Program;
import traytender.ingest.broker.BuiltInBroker;
import traytender.ingest.broker.Credentials;
import traytender.testing.Programs;

/**
 * The page's sketch for boards, run as it stands against the built-in broker, by MicroPython where there is one on this machine, and by
 * CPython, which has the modules and calls that it uses.
 */
class SketchTest {
    private static final String SITE = """
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            rooms: [{id: propagation, kind: indoors}]
            trays: [{id: T01, room: propagation, cells: {rows: 8, columns: 16}}]
            probes:
              - id: T01-soil
                measures: moisture
                at: {tray: T01, row: 4, column: 8}
                message: {topic: alder/T01/centre, format: json, value: /soil}
            messages: {listen: 0.0.0.0, port: %d}
            """;

    @TempDir
    Path folder;

    private Program program;
    private String password;
    private Process board;

    @BeforeEach
    void listen() throws Exception {
        Files.writeString(folder.resolve("site.yaml"), SITE.formatted(BuiltInBroker.freePort(0)));
        password = Credentials.give(folder.resolve("passwords"), "T01", List.of("alder/T01/#"));
        var settings = new PageSettings("127.0.0.1", 0, folder.resolve("page.password"));
        program = Program.start(SiteReader.read(folder), settings, Clock.systemUTC());
        await().until(() -> program.brokerPort() != 0);
    }

    @AfterEach
    void end() {
        if (board != null) {
            board.destroyForcibly();
        }
        program.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"micropython", "python3"})
    void sketch_sendsWhatIsStored_whereItsPasswordIsRight(String interpreter) throws Exception {
        run(interpreter, password);

        await().atMost(Duration.ofMinutes(1)).until(() -> readings().contains(",2100") || !board.isAlive());
        assertThat(readings()).contains(",2100");
        assertThat(said()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"micropython", "python3"})
    void sketch_saysThatItIsNotLetIn(String interpreter) throws Exception {
        run(interpreter, "not the one");

        await().atMost(Duration.ofMinutes(1)).until(() -> !said().isEmpty() || !board.isAlive());
        assertThat(said()).isEqualTo("not let in\n");
        assertThat(readings()).doesNotContain(",2100");
    }

    private void run(String interpreter, String with) throws Exception {
        Path at = Programs.find(interpreter).orElse(null);
        assumeTrue(at != null, interpreter + " is not on this machine: the sketch is not run by it");
        String sketch;
        try (InputStream in = Program.class.getResourceAsStream("/traytender/dashboard/page/web/setup/sketch.py")) {
            sketch = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
        Path file = Files.writeString(
                folder.resolve("board.py"),
                sketch.replace("\"192.168.1.7\", 1883", "\"127.0.0.1\", " + program.brokerPort())
                        .replace("as shown once on the page", with));
        var builder = new ProcessBuilder(at.toString(), file.toString())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("board.txt").toFile());
        builder.environment().put("PYTHONUNBUFFERED", "1");
        board = builder.start();
    }

    private String said() throws Exception {
        return Files.readString(folder.resolve("board.txt"));
    }

    private String readings() throws Exception {
        var request = HttpRequest.newBuilder(URI.create(program.page()
                        + "api/v1/readings?probe=T01-soil&from=2020-01-01T00:00:00Z&to=2100-01-01T00:00:00Z"))
                .build();
        return HttpClient.newHttpClient()
                .send(request, HttpResponse.BodyHandlers.ofString())
                .body();
    }
}
