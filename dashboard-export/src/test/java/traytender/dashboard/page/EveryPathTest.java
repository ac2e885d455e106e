package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.InputStream;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;

/** The OpenAPI document and the server are of one mind: every operation it describes is asked, and answers as it says. */
class EveryPathTest {
    @RegisterExtension
    final ServedBench served = new ServedBench();

    /** One right question of an operation, in an order in which each finds what it is about. */
    private record Asked(String method, String path, String question, String body) {}

    private static final List<Asked> RIGHT = List.of(
            get("/api/v1/alerts", ""),
            get("/api/v1/trays", ""),
            get("/api/v1/trays/{id}", "/api/v1/trays/T01"),
            get("/api/v1/trays/{id}/history", "/api/v1/trays/T01/history?views=5"),
            get("/api/v1/coverage", ""),
            get("/api/v1/readings", "/api/v1/readings?probe=T01-moisture"),
            get("/api/v1/counts", ""),
            get("/api/v1/nights/{date}", "/api/v1/nights/2026-03-13"),
            get("/api/v1/nights/{date}/report.html", "/api/v1/nights/2026-03-13/report.html"),
            get("/api/v1/nights/{date}/report.pdf", "/api/v1/nights/2026-03-13/report.pdf"),
            get("/api/v1/nights/{date}/report.csv", "/api/v1/nights/2026-03-13/report.csv"),
            get("/api/v1/rooms", ""),
            get("/api/v1/mats", ""),
            get("/api/v1/probes", ""),
            get("/api/v1/journal", ""),
            get("/api/v1/unassigned", ""),
            get("/api/v1/refusals", ""),
            get("/api/v1/site", ""),
            get("/api/v1/outage", ""),
            get("/api/v1/openapi.json", ""),
            get("/api/v1/health", ""),
            get("/health", ""),
            get("/metrics", ""),
            get("/api/v1/limits", ""),
            get("/api/v1/limits/versions", ""),
            get("/api/v1/limits/suggestions", ""),
            get("/api/v1/limits/stays", "/api/v1/limits/stays?days=4"),
            get("/api/v1/varieties", ""),
            get("/api/v1/varieties.csv", ""),
            get("/api/v1/labels.pdf", "/api/v1/labels.pdf?paper=62x29"),
            get("/api/v1/notices", ""),
            new Asked("POST", "/api/v1/journal", "/api/v1/journal", "{\"tray\":\"T01\",\"entry\":\"watered\"}"),
            new Asked("PUT", "/api/v1/journal/{number}", "/api/v1/journal/1", "{\"tray\":\"T01\",\"entry\":\"fed\"}"),
            new Asked("DELETE", "/api/v1/journal/{number}", "/api/v1/journal/2", null),
            new Asked("POST", "/api/v1/journal/{number}/bring-back", "/api/v1/journal/2/bring-back", "{}"),
            new Asked("POST", "/api/v1/round", "/api/v1/round", "{\"mark\":\"seen\",\"alerts\":[\"a1\"]}"),
            new Asked("DELETE", "/api/v1/round/{number}", "/api/v1/round/1", null),
            new Asked(
                    "POST",
                    "/api/v1/limits/trials",
                    "/api/v1/limits/trials",
                    "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0.05}]}"),
            get("/api/v1/limits/trials/{number}", "/api/v1/limits/trials/1"),
            new Asked("DELETE", "/api/v1/limits/trials/{number}", "/api/v1/limits/trials/1", null),
            new Asked(
                    "POST", "/api/v1/limits", "/api/v1/limits", "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0.05}]}"),
            new Asked(
                    "POST",
                    "/api/v1/limits/versions/{number}/bring-back",
                    "/api/v1/limits/versions/1/bring-back",
                    "{}"),
            new Asked("POST", "/api/v1/notices/test", "/api/v1/notices/test", "{\"person\":\"Mira\"}"));

    private static Asked get(String path, String question) {
        return new Asked("GET", path, question.isEmpty() ? path : question, null);
    }

    @Test
    void rightQuestions_areAnsweredAsDescribed() throws Exception {
        served.bench.storeReadings();

        for (Asked asked : RIGHT) {
            HttpResponse<String> answer = served.send(asked.method(), asked.question(), asked.body());

            assertThat(answer.statusCode()).as(asked.toString()).isBetween(200, 202);
            assertAsDescribed(asked.method(), asked.path(), answer);
        }
    }

    /** Whatever else is described is asked for what is not there: its refusal, too, must be one that is described. */
    @Test
    void everyOtherOperation_refusesAsDescribed() throws Exception {
        Set<String> operations = operations();
        RIGHT.forEach(asked -> assertThat(operations).contains(asked.method() + " " + asked.path()));
        RIGHT.forEach(asked -> operations.remove(asked.method() + " " + asked.path()));
        operations.remove("GET /api/v1/changes");

        for (String operation : operations) {
            String[] parts = operation.split(" ", 2);
            String question = parts[1].replaceAll("\\{[^}]*}", "987654");
            String body = parts[0].equals("GET") || parts[0].equals("DELETE") ? null : "{}";
            assertAsDescribed(parts[0], parts[1], served.send(parts[0], question, body));
        }
    }

    @Test
    void changes_areAStreamOfEventsThatAreNamedInTheDescription() throws Exception {
        var request = HttpRequest.newBuilder(served.at("/api/v1/changes"))
                .header("Accept", "text/event-stream")
                .build();

        HttpResponse<InputStream> answer =
                HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofInputStream());

        try (InputStream stream = answer.body()) {
            assertThat(answer.headers().firstValue("Content-Type").orElse("")).startsWith("text/event-stream");
            assertThat(stream.read()).as("the first event's first letter").isPositive();
        }
    }

    private void assertAsDescribed(String method, String path, HttpResponse<String> answer) throws Exception {
        String status = Integer.toString(answer.statusCode());
        JsonNode responses = ApiDescription.of(served.server)
                .json()
                .path("paths")
                .path(path)
                .path(method.toLowerCase(java.util.Locale.ROOT))
                .path("responses");
        assertThat(responses.has(status))
                .as("%s %s answered %s, which is not described", method, path, status)
                .isTrue();
        String type = answer.headers().firstValue("Content-Type").orElse("").split(";")[0];
        assertThat(responses.path(status).path("content").has(type))
                .as("%s %s answers %s", method, path, type)
                .isTrue();
        if (type.equals("application/json") && !path.endsWith("openapi.json")) {
            assertThat(served.errors(path, method.toLowerCase(java.util.Locale.ROOT), status, ServedBench.json(answer)))
                    .as("%s %s: %s", method, path, status)
                    .isEmpty();
        }
    }

    private Set<String> operations() throws Exception {
        var operations = new TreeSet<String>();
        ApiDescription.of(served.server).json().path("paths").fields().forEachRemaining(path -> {
            var methods = new LinkedHashSet<String>();
            path.getValue().fieldNames().forEachRemaining(methods::add);
            methods.remove("parameters");
            methods.forEach(method -> operations.add(method.toUpperCase(java.util.Locale.ROOT) + " " + path.getKey()));
        });
        return operations;
    }
}
