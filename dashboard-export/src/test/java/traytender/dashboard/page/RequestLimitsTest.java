package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Requests that are too large or never end, over plain sockets. */
class RequestLimitsTest {
    private static final RequestLimits SHORT = new RequestLimits(100_000, Duration.ofSeconds(2), 100, 100);
    /** Half-sent requests at a time, each of which waits for its idle connection's end. */
    private static final int MANY = 60;

    /** For the test itself: a server that never ended a connection would be seen by it. */
    private static final int FOR_GOOD_MS = 60_000;

    @TempDir
    Path folder;

    private BenchFixture bench;
    private PageServer server;

    @BeforeEach
    void serve() throws IOException {
        bench = BenchFixture.in(folder);
        var settings = new PageSettings("127.0.0.1", 0, folder.resolve("page.password"));
        server = PageServer.start(bench, bench, settings, Clock.systemUTC(), SHORT);
    }

    @AfterEach
    void close() {
        server.close();
        bench.close();
    }

    @Test
    void bodyThatIsTooLong_isAnswered413_inAPlainWord() throws Exception {
        HttpResponse<String> answer = post("{\"tray\":\"T01\",\"note\":\"" + "x".repeat(SHORT.body()) + "\"}");

        assertThat(answer.statusCode()).isEqualTo(413);
        assertThat(answer.body()).contains("\"error\"");
    }

    @Test
    void bodyThatIsAsLongAsItMayBe_isRead() throws Exception {
        HttpResponse<String> answer = post("{" + " ".repeat(SHORT.body() - 2) + "}");

        assertThat(answer.statusCode()).isEqualTo(400);
        assertThat(answer.body()).contains("missing");
    }

    @Test
    void addressOrHeaderWithoutEnd_isRefused() throws Exception {
        assertThat(said("GET /" + "x".repeat(20_000) + " HTTP/1.1\r\nHost: localhost\r\n\r\n"))
                .startsWith("HTTP/1.1 414");
        assertThat(said("GET / HTTP/1.1\r\nHost: localhost\r\nX-Long: " + "x".repeat(20_000) + "\r\n\r\n"))
                .startsWith("HTTP/1.1 431");
    }

    @Test
    void requestsThatNeverEnd_holdUpNobody_andTheirConnectionsAreEnded() throws Exception {
        var slow = new ArrayList<Socket>();
        try {
            for (int i = 0; i < MANY; i++) {
                slow.add(
                        begin(
                                i % 2 == 0
                                        ? "GET / HTTP/1.1\r\nHost: localhost\r\nX-Half: "
                                        : "POST /api/v1/journal HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"));
            }

            assertThat(post("{}").statusCode()).isEqualTo(400);
            for (Socket socket : slow) {
                socket.setSoTimeout(FOR_GOOD_MS);
                assertThat(new String(socket.getInputStream().readAllBytes(), StandardCharsets.US_ASCII))
                        .as("what is said before the end")
                        .doesNotContain(" 200 ");
            }
        } finally {
            for (Socket socket : slow) {
                socket.close();
            }
        }
    }

    private HttpResponse<String> post(String body) throws Exception {
        URI at = server.address().resolve("/api/v1/journal");
        var request = HttpRequest.newBuilder(at)
                .header("Content-Type", "application/json")
                .POST(HttpRequest.BodyPublishers.ofString(body));
        return HttpClient.newHttpClient().send(request.build(), BodyHandlers.ofString());
    }

    private String said(String request) throws IOException {
        try (Socket socket = begin(request)) {
            socket.setSoTimeout(FOR_GOOD_MS);
            return new String(socket.getInputStream().readAllBytes(), StandardCharsets.US_ASCII);
        }
    }

    private Socket begin(String request) throws IOException {
        var socket = new Socket("127.0.0.1", server.address().getPort());
        socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
        return socket;
    }
}
