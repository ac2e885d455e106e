package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.BeforeEachCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/** For each test a {@link BenchFixture} of its own, served by a real {@link PageServer} on a free port, and questions to it. */
final class ServedBench implements BeforeEachCallback, AfterEachCallback {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private final HttpClient client = HttpClient.newHttpClient();
    BenchFixture bench;
    PageServer server;
    private Path folder;

    @Override
    public void beforeEach(ExtensionContext context) throws IOException {
        folder = Files.createTempDirectory("bench");
        bench = BenchFixture.in(folder);
        server = PageServer.start(bench, bench, new PageSettings("127.0.0.1", 0, folder.resolve("page.password")));
    }

    @Override
    public void afterEach(ExtensionContext context) throws IOException {
        server.close();
        bench.close();
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
        assertThat(bench.listeners).as("listeners left behind").isEmpty();
    }

    /** Where a path is on this server. */
    URI at(String path) {
        return server.address().resolve(path);
    }

    HttpResponse<String> get(String path) throws IOException, InterruptedException {
        return client.send(HttpRequest.newBuilder(at(path)).build(), BodyHandlers.ofString());
    }

    /** The answer to a question, which must be 200 and JSON. */
    JsonNode json(String path) throws IOException, InterruptedException {
        HttpResponse<String> answer = get(path);
        assertThat(answer.statusCode()).as(path).isEqualTo(200);
        return json(answer);
    }

    static JsonNode json(HttpResponse<String> answer) throws IOException {
        return MAPPER.readTree(answer.body());
    }

    /** @param body JSON; null for none */
    HttpResponse<String> send(String method, String path, String body) throws IOException, InterruptedException {
        var request = HttpRequest.newBuilder(at(path))
                .header("Content-Type", "application/json")
                .method(method, body == null ? BodyPublishers.noBody() : BodyPublishers.ofString(body));
        return client.send(request.build(), BodyHandlers.ofString());
    }

    /** What of an answer is not as the server's own description says. */
    List<String> errors(String path, String method, String status, JsonNode answer) throws Exception {
        return ApiDescription.of(server).errors(path, method, status, answer);
    }
}
