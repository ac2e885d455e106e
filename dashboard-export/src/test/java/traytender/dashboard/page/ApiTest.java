package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ApiTest {
    @RegisterExtension
    final ServedBench served = new ServedBench();

    @ParameterizedTest
    @CsvSource({
        "/api/v1/alerts, /api/v1/alerts",
        "/api/v1/alerts, /api/v1/alerts?open=true&limit=5",
        "/api/v1/trays, /api/v1/trays",
        "/api/v1/trays, /api/v1/trays?cells=false",
        "/api/v1/trays/{id}, /api/v1/trays/T01",
        "/api/v1/readings, /api/v1/readings?probe=T01-moisture",
        "/api/v1/readings, /api/v1/readings?probe=propagation-air&from=2026-03-14T05:41:00Z",
        "/api/v1/counts, /api/v1/counts",
        "/api/v1/nights/{date}, /api/v1/nights/2026-03-13",
        "/api/v1/rooms, /api/v1/rooms",
        "/api/v1/mats, /api/v1/mats",
        "/api/v1/probes, /api/v1/probes",
        "/api/v1/journal, /api/v1/journal?tray=T01",
        "/api/v1/journal, /api/v1/journal?past=true&from=2026-03-13T00:00:00Z",
        "/api/v1/unassigned, /api/v1/unassigned",
        "/api/v1/refusals, /api/v1/refusals",
        "/api/v1/site, /api/v1/site",
        "/api/v1/health, /api/v1/health",
        "/api/v1/varieties, /api/v1/varieties",
        "/api/v1/notices, /api/v1/notices",
        "/api/v1/limits/versions, /api/v1/limits/versions",
        "/health, /health",
    })
    void answer_isAsItsDescriptionSays(String path, String question) throws Exception {
        JsonNode answer = served.json(question);

        assertThat(served.errors(path, "get", "200", answer)).isEmpty();
        assertThat(answer.toString()).doesNotContain("NaN");
    }

    @Test
    void description_refusesWhatIsNotSo() throws Exception {
        JsonNode counts = new ObjectMapper().readTree("{\"received\":-1,\"stored\":\"many\"}");

        assertThat(served.errors("/api/v1/counts", "get", "200", counts)).hasSizeGreaterThan(2);
    }

    @Test
    void tray_tellsUnknownNumbersAsNull() throws Exception {
        JsonNode tray = served.json("/api/v1/trays/T01");

        assertThat(tray.at("/cells/3/moisture").isNull()).isTrue();
        assertThat(tray.at("/cells/0/moisture").asDouble()).isEqualTo(0.5);
        assertThat(tray.at("/zones/0/temperature").isNull()).isTrue();
        assertThat(tray.at("/sowings/0/since").isNull()).isTrue();
        assertThat(tray.at("/stage").asText()).isEqualTo("seedling");
    }

    @Test
    void alerts_comeMostUrgentFirstAndClosedOnesLast() throws Exception {
        JsonNode all = served.json("/api/v1/alerts");
        JsonNode open = served.json("/api/v1/alerts?open=true");

        assertThat(all.findValuesAsText("id")).containsExactly("a2", "a1", "a3");
        assertThat(open.findValuesAsText("id")).containsExactly("a2", "a1");
    }

    @Test
    void readings_areFromInclusiveToExclusiveWithTheirMarks() throws Exception {
        String body = served.get(
                        "/api/v1/readings?probe=T01-moisture&from=2026-03-14T11:58:00Z&to=2026-03-14T12:00:00.001Z")
                .body();

        assertThat(body)
                .isEqualTo(
                        "{\"probe\":\"T01-moisture\",\"unit\":\"1\",\"readings\":[[\"2026-03-14T11:58:00Z\",0.5002,[]],"
                                + "[\"2026-03-14T11:59:00Z\",0.5001,[]],[\"2026-03-14T12:00:00Z\",0.5,[\"clamped\"]]]}");
    }

    @Test
    void readings_thinnedStayFew() throws Exception {
        JsonNode thinned = served.json("/api/v1/readings?probe=T01-moisture&points=50");

        assertThat(thinned.get("readings").size()).isBetween(25, 50);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/api/v1/alerts?open=maybe",
                "/api/v1/alerts?opne=true",
                "/api/v1/alerts?limit=0",
                "/api/v1/trays/T01/history?views=1",
                "/api/v1/trays/T01/history?from=2026-01-01T00:00:00Z",
                "/api/v1/readings",
                "/api/v1/readings?probe=T01-moisture&from=yesterday",
                "/api/v1/readings?probe=T01-moisture&from=2026-03-14T12:00:00Z&to=2026-03-14T11:00:00Z",
                "/api/v1/readings?probe=T01-moisture&points=3",
                "/api/v1/readings?probe=T01-moisture&points=many",
                "/api/v1/nights/2026-02-30",
                "/api/v1/nights/last",
                "/api/v1/counts?x=1",
            })
    void wrongParameter_isAnswered400WithAPlainWord(String question) throws Exception {
        HttpResponse<String> answer = served.get(question);

        assertThat(answer.statusCode()).isEqualTo(400);
        assertThat(ServedBench.json(answer).get("error").asText()).isNotBlank().doesNotContain("Exception");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/api/v1/trays/T99",
                "/api/v1/readings?probe=nobody",
                "/api/v1/nothing",
                "/nothing",
                "/web/../Api.class"
            })
    void unknownThing_isAnswered404(String question) throws Exception {
        assertThat(served.get(question).statusCode()).isEqualTo(404);
    }

    @Test
    void varieties_comeAsACsvFileToo() throws Exception {
        HttpResponse<String> answer = served.get("/api/v1/varieties.csv");

        assertThat(answer.headers().firstValue("Content-Type").orElseThrow()).startsWith("text/csv");
        assertThat(answer.body())
                .isEqualTo("crop,variety,seeds,emerged,thinned,lost,potted-up,planted-out\n"
                        + "tomato,Copper Lantern,,,0,0,0,0\n");
    }

    @Test
    void health_is503WithItsCauses() throws Exception {
        served.bench.health = new BenchFacts.Health(
                List.of("the broker refuses the password"), List.of("an old database stands aside"));

        HttpResponse<String> answer = served.get("/health");

        assertThat(answer.statusCode()).isEqualTo(503);
        assertThat(answer.body())
                .isEqualTo("{\"well\":false,\"causes\":[\"the broker refuses the password\"],"
                        + "\"notes\":[\"an old database stands aside\"]}");
    }

    @Test
    void metrics_areOpenMetricsText() throws Exception {
        HttpResponse<String> answer = served.get("/metrics");

        assertThat(answer.headers().firstValue("Content-Type").orElseThrow())
                .startsWith("application/openmetrics-text; version=1.0.0");
        assertThat(answer.body())
                .contains("# TYPE traytender_readings_received counter\n")
                .contains("\ntraytender_readings_received_total 12\n")
                .contains("\ntraytender_readings_refused_total{cause=\"not-a-number\"} 2\n")
                .contains("\ntraytender_alerts_open{urgency=\"now\"} 1\n")
                .contains("\ntraytender_moisture_ratio{tray=\"T01\",zone=\"corner-front-left\"} 0.5\n")
                .contains("\ntraytender_influxdb_waiting 1200\n", "\ntraytender_influxdb_taking 0\n")
                .doesNotContain("NaN")
                .endsWith("# EOF\n");
        assertThat(Metrics.label("tray", "a\"b\\c\nd")).isEqualTo("tray=\"a\\\"b\\\\c\\nd\"");
    }

    @Test
    void strangerAsHost_isRefused() throws Exception {
        HostGuard guard = HostGuard.of("127.0.0.1");

        assertThat(List.of("localhost:8420", "127.0.0.1", "[::1]:8420", "192.168.1.7:8420"))
                .allMatch(guard::allows);
        assertThat(List.of("rebound.example", "rebound.example:8420", "127.0.0.1.example", ""))
                .noneMatch(guard::allows);
    }

    @Test
    void everyAnswer_forbidsWhatIsFromElsewhere() throws Exception {
        for (String path : List.of("/", "/api/v1/trays", "/web/app.js", "/api/v1/trays/T99")) {
            assertThat(served.get(path)
                            .headers()
                            .firstValue("Content-Security-Policy")
                            .orElse(path))
                    .contains("default-src 'none'", "script-src 'self'")
                    .doesNotContain("unsafe");
        }
    }

    @Test
    void portInUse_isSaidPlainly() {
        var settings = new PageSettings("127.0.0.1", served.server.address().getPort(), Path.of("page.password"));

        assertThatThrownBy(() -> PageServer.start(served.bench, served.bench, settings))
                .isInstanceOf(PageException.class)
                .hasMessageContaining("127.0.0.1:" + served.server.address().getPort())
                .hasMessageContaining("Maybe");
    }
}
