package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Limits by HTTP. */
class LimitsApiTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final String LIMITS = "/api/v1/limits";
    private static final String HIGHER = "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0.05}]}";
    private final HttpClient client = HttpClient.newHttpClient();

    @TempDir
    Path folder;

    private BenchFixture bench;
    private PageServer server;

    @BeforeEach
    void serve() throws IOException {
        bench = BenchFixture.in(folder);
        server = PageServer.start(bench, bench, new PageSettings("127.0.0.1", 0, folder.resolve("page.password")));
    }

    @AfterEach
    void close() {
        server.close();
        bench.close();
    }

    @Test
    void limits_comeWithTheirSourcesAndSayWhatStandsHere() throws Exception {
        JsonNode limits = json(get(LIMITS));

        assertThat(ApiDescription.of(server).errors(LIMITS, "get", "200", limits))
                .isEmpty();
        assertThat(limits.at("/crops").findValuesAsText("crop")).containsExactly("tomato");
        assertThat(limits.at("/crops/0/stages/1/stage").asText()).isEqualTo("seedling");
        assertThat(limits.at("/crops/0/stages/1/standing").asBoolean()).isTrue();
        assertThat(limits.at("/crops/0/stages/1/limits/0/source").asText()).startsWith("our choice");
        assertThat(limits.at("/sources/S06").asText()).isNotBlank();
        assertThat(json(get(LIMITS + "?all=true")).at("/crops").size()).isGreaterThan(15);
    }

    @Test
    void trial_isBegunFollowedAndAnswered() throws Exception {
        bench.storeReadings();
        var description = ApiDescription.of(server);

        HttpResponse<String> begun = send("POST", LIMITS + "/trials", HIGHER);

        assertThat(begun.statusCode()).isEqualTo(202);
        assertThat(description.errors(LIMITS + "/trials", "post", "202", json(begun)))
                .isEmpty();
        String trial = LIMITS + "/trials/" + json(begun).at("/number").asInt();
        await().until(() -> json(get(trial)).at("/state").asText().equals("done"));
        JsonNode done = json(get(trial));
        assertThat(description.errors(LIMITS + "/trials/{number}", "get", "200", done))
                .isEmpty();
        assertThat(done.at("/differences").findValuesAsText("what")).contains("earlier");
        assertThat(send("DELETE", trial, null).statusCode()).isEqualTo(200);
        assertThat(get(LIMITS + "/trials/99").statusCode()).isEqualTo(404);
    }

    @Test
    void noReadings_isSaid() throws Exception {
        assertThat(send("POST", LIMITS + "/trials", HIGHER).statusCode()).isEqualTo(409);
    }

    @Test
    void keptLimits_areInForceAndCanBeBroughtBack() throws Exception {
        HttpResponse<String> kept = send(
                "POST",
                LIMITS,
                "{\"changes\":[{\"crop\":\"tomato\",\"stage\":\"seedling\",\"limit\":\"dry-line\",\"by\":0.05}],\"who\":\"Mira\",\"why\":\"droops\"}");

        assertThat(kept.statusCode()).isEqualTo(201);
        assertThat(ApiDescription.of(server).errors(LIMITS, "post", "201", json(kept)))
                .isEmpty();
        assertThat(dryLine()).isEqualTo(0.5);
        HttpResponse<String> back = send("POST", LIMITS + "/versions/1/bring-back", "{}");
        assertThat(json(back)).hasSize(3);
        assertThat(dryLine()).isEqualTo(0.45);
        assertThat(send("POST", LIMITS + "/versions/77/bring-back", "{}").statusCode())
                .isEqualTo(404);
        assertThat(send("POST", LIMITS, "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0}]}")
                        .statusCode())
                .isEqualTo(409);
    }

    private double dryLine() throws Exception {
        return json(get(LIMITS)).at("/crops/0/stages/1/limits/0/value").asDouble();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{}",
                "{\"changes\":[]}",
                "{\"changes\":[{\"limit\":\"dry-line\"}]}",
                "{\"changes\":[{\"limit\":\"wish-line\",\"by\":1}]}",
                "{\"changes\":[{\"limit\":\"dry-line\",\"by\":\"5\"}]}",
                "{\"changes\":[{\"limit\":\"dry-line\",\"by\":7}]}",
                "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0.1,\"crop\":\"moss\"}]}",
                "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0.1,\"stage\":\"planted-out\"}]}",
                "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0.1,\"to\":0.5}]}",
            })
    void wrongChange_isAnswered400(String body) throws Exception {
        assertThat(send("POST", LIMITS + "/trials", body).statusCode()).isEqualTo(400);
        assertThat(send("POST", LIMITS, body).statusCode()).isEqualTo(400);
        assertThat(bench.limits().versions()).isEmpty();
    }

    private static JsonNode json(HttpResponse<String> answer) throws IOException {
        return MAPPER.readTree(answer.body());
    }

    private HttpResponse<String> get(String path) throws Exception {
        return send("GET", path, null);
    }

    private HttpResponse<String> send(String method, String path, String body) throws Exception {
        var request = HttpRequest.newBuilder(URI.create(server.address() + path.substring(1)))
                .header("Content-Type", "application/json")
                .method(
                        method,
                        body == null ? HttpRequest.BodyPublishers.noBody() : HttpRequest.BodyPublishers.ofString(body));
        return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }
}
