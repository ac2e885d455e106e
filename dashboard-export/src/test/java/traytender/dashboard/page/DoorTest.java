package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The page on an address that others can reach. */
class DoorTest {
    private static final String PASSWORD = "wet thumbs 7";

    private final HttpClient client = HttpClient.newHttpClient();
    private final AtomicReference<Instant> now = new AtomicReference<>(BenchFixture.NOW);
    private final Clock clock = ((InstantSource) now::get).withZone(ZoneOffset.UTC);

    @TempDir
    Path folder;

    private Path file;
    private BenchFixture bench;
    private PageServer server;

    @BeforeEach
    void serve() throws IOException {
        file = folder.resolve("page.password");
        Files.writeString(file, PASSWORD + "\n");
        bench = BenchFixture.in(folder);
        server = PageServer.start(bench, bench, new PageSettings("0.0.0.0", 0, file), clock);
    }

    @AfterEach
    void close() {
        server.close();
        bench.close();
    }

    @Test
    void passwordInClear_isReplacedByItsHashThatOnlyTheOwnerReads() throws Exception {
        assertThat(Files.readString(file)).startsWith("$2a$12$").doesNotContain(PASSWORD);
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                .isEqualTo("rw-------");
        assertThat(PagePassword.of(file).matches(PASSWORD)).isTrue();
        assertThat(PagePassword.of(file).matches("wet thumbs 8")).isFalse();
    }

    @Test
    void stranger_getsTheLoginAndNothingElse() throws Exception {
        for (String path : List.of("/", "/trays/T01", "/nights")) {
            assertThat(get(path, "").statusCode()).as(path).isEqualTo(303);
        }
        for (String path : List.of(
                "/api/v1/trays", "/api/v1/changes", "/api/v1/openapi.json", "/metrics", "/api/v1/readings?probe=x")) {
            HttpResponse<String> answer = get(path, "");
            assertThat(answer.statusCode()).as(path).isEqualTo(401);
            assertThat(answer.body()).as(path).isEqualTo("{\"error\":\"log in first\"}");
        }
        assertThat(get("/health", "").body()).isEqualTo("{\"well\":true}");
        assertThat(get("/login", "").body()).contains("type=\"password\"");
        assertThat(get("/web/page.css", "").statusCode()).isEqualTo(200);
        assertThat(get("/web/../api/v1/trays", "").body()).doesNotContain("T01");
        assertThat(get("/web/%2e%2e/api/v1/trays", "").body()).doesNotContain("T01");
    }

    @Test
    void rightPassword_opensWithACookieNoScriptCanReadNorOtherSiteSend() throws Exception {
        HttpResponse<String> answer = login(PASSWORD);

        String cookie = answer.headers().firstValue("Set-Cookie").orElseThrow();
        assertThat(cookie).contains("HttpOnly", "SameSite=Strict", "Path=/");
        assertThat(get("/api/v1/trays", cookie.split(";")[0]).statusCode()).isEqualTo(200);
        assertThat(get("/api/v1/trays", Door.COOKIE + "=guess").statusCode()).isEqualTo(401);
    }

    @Test
    void session_endsAfterAMonth() throws Exception {
        String cookie =
                login(PASSWORD).headers().firstValue("Set-Cookie").orElseThrow().split(";")[0];

        now.updateAndGet(time -> time.plus(Sessions.LASTING));

        assertThat(get("/api/v1/trays", cookie).statusCode()).isEqualTo(401);
    }

    @Test
    void guesser_waitsLongerEachTimeAndTheRightPasswordWaitsToo() throws Exception {
        for (int i = 0; i < 4; i++) {
            assertThat(login("guess " + i).statusCode()).isEqualTo(401);
        }

        assertThat(login(PASSWORD).statusCode()).isEqualTo(429);
        now.updateAndGet(time -> time.plus(Duration.ofSeconds(2)));
        assertThat(login("guess").statusCode()).isEqualTo(401);
        now.updateAndGet(time -> time.plus(Duration.ofSeconds(1)));
        assertThat(login(PASSWORD).statusCode()).isEqualTo(429);
        now.updateAndGet(time -> time.plus(Duration.ofSeconds(2)));
        assertThat(login(PASSWORD).statusCode()).isEqualTo(303);
    }

    @Test
    void metricsToken_opensTheMetrics_andNothingElse() throws Exception {
        Files.writeString(folder.resolve("metrics.token"), "0123456789abcdef\n");
        server.close();
        server = PageServer.start(bench, bench, new PageSettings("0.0.0.0", 0, file), clock);

        assertThat(bearing("/metrics", "Bearer 0123456789abcdef")).isEqualTo(200);
        assertThat(bearing("/metrics", "Bearer 0123456789abcdeF")).isEqualTo(401);
        assertThat(bearing("/metrics", "Bearer ")).isEqualTo(401);
        assertThat(bearing("/api/v1/trays", "Bearer 0123456789abcdef")).isEqualTo(401);
    }

    @Test
    void metricsToken_thatCanBeGuessed_isNotServed() throws IOException {
        Files.writeString(folder.resolve("metrics.token"), "short");

        assertThatThrownBy(() -> PageServer.start(bench, bench, new PageSettings("0.0.0.0", 0, file)))
                .isInstanceOf(PageException.class)
                .hasMessageContaining("metrics.token");
    }

    private int bearing(String path, String authorization) throws Exception {
        HttpRequest request = HttpRequest.newBuilder(at(path))
                .header("Authorization", authorization)
                .build();
        return client.send(request, HttpResponse.BodyHandlers.ofString()).statusCode();
    }

    @Test
    void openAddressWithoutPassword_isNotServed() {
        var settings = new PageSettings("0.0.0.0", 0, folder.resolve("none"));

        assertThatThrownBy(() -> PageServer.start(bench, bench, settings))
                .isInstanceOf(PageException.class)
                .hasMessageContaining("none")
                .hasMessageContaining("Maybe");
    }

    private HttpResponse<String> get(String path, String cookie) throws Exception {
        HttpRequest request =
                HttpRequest.newBuilder(at(path)).header("Cookie", cookie).build();
        return client.send(request, HttpResponse.BodyHandlers.ofString());
    }

    private HttpResponse<String> login(String password) throws Exception {
        HttpRequest request = HttpRequest.newBuilder(at("/login"))
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString("password=" + password.replace(' ', '+')))
                .build();
        return client.send(request, HttpResponse.BodyHandlers.ofString());
    }

    private URI at(String path) {
        return URI.create("http://127.0.0.1:" + server.address().getPort() + path);
    }
}
