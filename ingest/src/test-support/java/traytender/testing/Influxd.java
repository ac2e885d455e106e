package traytender.testing;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;

/** A real InfluxDB server on a free loopback port, with one user, that can be stopped and started again with what it holds. */
public final class Influxd implements AutoCloseable {
    private static final ObjectMapper JSON = new ObjectMapper();

    private final HttpClient client = HttpClient.newHttpClient();
    private final Path config;
    private final int port;
    private @Nullable Process process;

    private Influxd(Path config, int port) {
        this.config = config;
        this.port = port;
    }

    /** Starts one whose files are in the folder. */
    public static Influxd start(Path folder) throws IOException {
        return start(folder, "");
    }

    /**
     * Starts one.
     *
     * @param http further lines of its section {@code [http]}
     */
    public static Influxd start(Path folder, String http) throws IOException {
        Files.createDirectories(folder);
        var port = Programs.freePort();
        var config = Files.writeString(
                folder.resolve("influxd.conf"), """
                reporting-disabled = true
                bind-address = "127.0.0.1:%d"
                [meta]
                  dir = "%s/meta"
                [data]
                  dir = "%s/data"
                  wal-dir = "%s/wal"
                [monitor]
                  store-enabled = false
                [http]
                  bind-address = "127.0.0.1:%d"
                  auth-enabled = true
                  %s
                """.formatted(Programs.freePort(), folder, folder, folder, port, http));
        var server = new Influxd(config, port);
        server.startAgain();
        server.ask("POST", "/query?q=" + encoded("CREATE USER alder WITH PASSWORD 'bench' WITH ALL PRIVILEGES"), "");
        return server;
    }

    /** Starts it again at the same port, with what it holds. */
    public void startAgain() throws IOException {
        process = new ProcessBuilder("influxd", "-config", config.toString())
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.appendTo(
                        config.resolveSibling("influxd.log").toFile()))
                .start();
        Awaitility.await().atMost(Duration.ofSeconds(60)).ignoreExceptions().until(() -> {
            ask("GET", "/ping", "");
            return true;
        });
    }

    /** Stops it; its files stay. */
    public void stop() {
        var running = process;
        if (running == null) {
            return;
        }
        running.destroy();
        try {
            if (!running.waitFor(20, TimeUnit.SECONDS)) {
                running.destroyForcibly();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            running.destroyForcibly();
        }
        process = null;
    }

    /** Where it answers. */
    public String url() {
        return "http://127.0.0.1:" + port;
    }

    /** Its one user, who may do everything. */
    public String user() {
        return "alder";
    }

    /** The user's password. */
    public String password() {
        return "bench";
    }

    /** The rows of a query's first series, times in milliseconds since 1970; none when there is no series. */
    public List<List<Object>> query(@Nullable String database, String query) {
        var path = "/query?epoch=ms&q=" + encoded(query) + (database == null ? "" : "&db=" + encoded(database));
        var rows = new ArrayList<List<Object>>();
        for (var row : ask("POST", path, "").at("/results/0/series/0/values")) {
            var values = new ArrayList<>();
            row.forEach(
                    cell -> values.add(values.isEmpty() ? cell.longValue() : JSON.convertValue(cell, Object.class)));
            rows.add(values);
        }
        return rows;
    }

    /** Writes one line of line protocol, its time in milliseconds. */
    public void write(String database, String line) {
        ask("POST", "/write?precision=ms&db=" + encoded(database), line);
    }

    private JsonNode ask(String method, String path, String body) {
        var credentials = Base64.getEncoder().encodeToString((user() + ":" + password()).getBytes(UTF_8));
        var request = HttpRequest.newBuilder(URI.create(url() + path))
                .timeout(Duration.ofSeconds(10))
                .header("Authorization", "Basic " + credentials)
                .method(method, HttpRequest.BodyPublishers.ofString(body))
                .build();
        try {
            var response = client.send(request, HttpResponse.BodyHandlers.ofString());
            if (response.statusCode() / 100 != 2) {
                throw new IllegalStateException(path + ": " + response.statusCode() + " " + response.body());
            }
            return response.body().isBlank() ? JSON.nullNode() : JSON.readTree(response.body());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, UTF_8);
    }

    @Override
    public void close() {
        stop();
    }
}
