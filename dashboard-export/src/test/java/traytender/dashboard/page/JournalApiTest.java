package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.journal.EntryKind;

/** The journal by HTTP, as the page and a script write it. */
class JournalApiTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final String JOURNAL = "/api/v1/journal";
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
    void entry_isWrittenWithItsDetailAndAnsweredAsItStands() throws Exception {
        HttpResponse<String> answer = send("POST", JOURNAL, """
                {"tray":"T01","entry":"watered","time":"2026-03-14T11:30:00+00:00",
                 "detail":{"zones":"centre","litres":1.5,"from":"below"},"note":"dry; at the front"}""");

        assertThat(answer.statusCode()).isEqualTo(201);
        JsonNode kept = MAPPER.readTree(answer.body());
        assertThat(kept.at("/state").asText()).isEqualTo("counts");
        assertThat(kept.at("/detail").toString())
                .isEqualTo("{\"from\":\"below\",\"litres\":\"1.5\",\"zones\":\"centre\"}");
        assertThat(kept.at("/note").asText()).isEqualTo("dry; at the front");
        assertThat(ApiDescription.of(server).errors(JOURNAL, "post", "201", kept))
                .isEmpty();
        JsonNode listed = get(JOURNAL + "?tray=T01&from=2026-03-14T11:30:00Z&to=2026-03-14T11:30:01Z");
        assertThat(listed).hasSize(1);
        assertThat(listed.at("/0/number")).isEqualTo(kept.at("/number"));
    }

    @ParameterizedTest
    @EnumSource(EntryKind.class)
    void everyKindOfEntry_canBeWritten(EntryKind kind) throws Exception {
        HttpResponse<String> answer = send(
                "POST", JOURNAL, "{\"tray\":\"T01\",\"entry\":\"" + kind.word() + "\",\"detail\":{\"rows\":\"1\"}}");

        assertThat(answer.statusCode()).isEqualTo(201);
        JsonNode kept = MAPPER.readTree(answer.body());
        assertThat(kept.at("/time").asText()).isEqualTo("2026-03-14T12:00:00Z");
        assertThat(ApiDescription.of(server).errors(JOURNAL, "post", "201", kept))
                .isEmpty();
    }

    @Test
    void severalEntries_areOneGroup_allOrNone() throws Exception {
        String watered = "{\"tray\":\"T01\",\"entry\":\"watered\"}";

        HttpResponse<String> none = send("POST", JOURNAL, "[" + watered + ",{\"tray\":\"T99\",\"entry\":\"watered\"}]");

        assertThat(none.statusCode()).isEqualTo(400);
        assertThat(get(JOURNAL)).hasSize(1);
        assertThat(MAPPER.readTree(send("POST", JOURNAL, "[" + watered + "]").body()))
                .hasSize(1);
        assertThat(get(JOURNAL)).hasSize(2);
    }

    @Test
    void entryThatDoesLessThanItSays_isKeptAndTellsWhy() throws Exception {
        JsonNode kept = MAPPER.readTree(
                send("POST", JOURNAL, "{\"tray\":\"T01\",\"entry\":\"moved\",\"detail\":{\"to\":\"attic\"}}")
                        .body());

        assertThat(kept.at("/doubts/0").asText()).isEqualTo("there is no room named attic");
    }

    @Test
    void withdrawnEntry_staysVisibleAsWithdrawn_andCanBeBroughtBack() throws Exception {
        long number = get(JOURNAL).at("/0/number").asLong();

        JsonNode withdrawn =
                MAPPER.readTree(send("DELETE", JOURNAL + "/" + number, null).body());

        assertThat(withdrawn.at("/state").asText()).isEqualTo("withdrawn");
        assertThat(get(JOURNAL)).isEmpty();
        assertThat(get(JOURNAL + "?past=true").at("/0/state").asText()).isEqualTo("withdrawn");
        assertThat(send("POST", JOURNAL + "/" + number + "/bring-back", "{}").body())
                .contains("\"counts\"");
        assertThat(get(JOURNAL)).hasSize(1);
    }

    @Test
    void correction_putsTheRightEntryInThePlaceOfTheWrongOne_whichStaysOnRecord() throws Exception {
        long number = get(JOURNAL).at("/0/number").asLong();

        HttpResponse<String> answer = send(
                "PUT",
                JOURNAL + "/" + number,
                "{\"tray\":\"T01\",\"entry\":\"fed\",\"time\":\"2026-03-13T16:00:00Z\"}");

        JsonNode right = MAPPER.readTree(answer.body());
        assertThat(right.at("/entry").asText()).isEqualTo("fed");
        assertThat(get(JOURNAL).findValuesAsText("entry")).containsExactly("fed");
        JsonNode all = get(JOURNAL + "?past=true");
        assertThat(all.findValuesAsText("state")).containsExactly("corrected", "counts");
        assertThat(all.at("/0/replacedBy")).isEqualTo(right.at("/number"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "[]",
                "3",
                "{\"tray\":\"T01\"}",
                "{\"tray\":\"T01\",\"entry\":\"sang\"}",
                "{\"tray\":\"T99\",\"entry\":\"watered\"}",
                "{\"tray\":1,\"entry\":\"watered\"}",
                "{\"tray\":\"T01\",\"entry\":\"watered\",\"when\":\"now\"}",
                "{\"tray\":\"T01\",\"tray\":\"T01\",\"entry\":\"watered\"}",
                "{\"tray\":\"T01\",\"entry\":\"watered\"} and more",
                "{\"tray\":\"T01\",\"entry\":\"watered\",\"time\":\"yesterday\"}",
                "{\"tray\":\"T01\",\"entry\":\"watered\",\"time\":\"2026-03-14T12:06:00Z\"}",
                "{\"tray\":\"T01\",\"entry\":\"watered\",\"time\":\"1999-03-14T12:06:00Z\"}",
                "{\"tray\":\"T01\",\"entry\":\"watered\",\"detail\":\"zones=centre\"}",
                "{\"tray\":\"T01\",\"entry\":\"watered\",\"detail\":{\"zones\":[\"centre\"]}}",
                "{\"tray\":\"T01\",\"entry\":\"watered\",\"detail\":{\"zones\":\"centre;litres=4\"}}",
            })
    void wrongEntry_isAnswered400WithAPlainWord_andNothingIsWritten(String body) throws Exception {
        HttpResponse<String> answer = send("POST", JOURNAL, body);

        assertThat(answer.statusCode()).isEqualTo(400);
        assertThat(MAPPER.readTree(answer.body()).get("error").asText())
                .isNotBlank()
                .doesNotContain("Exception");
        assertThat(get(JOURNAL)).hasSize(1);
    }

    @Test
    void entryThatIsNotThere_isAnswered404() throws Exception {
        for (String number : List.of("99", "0", "-1", "one")) {
            assertThat(send("DELETE", JOURNAL + "/" + number, null).statusCode())
                    .as(number)
                    .isEqualTo(404);
        }
    }

    @Test
    void anotherWebSite_canChangeNothing() throws Exception {
        String body = "{\"tray\":\"T01\",\"entry\":\"watered\"}";
        String own = "http://127.0.0.1:" + server.address().getPort();

        assertThat(sendAs(body, "application/json", "Origin", "https://elsewhere.example"))
                .isEqualTo(403);
        assertThat(sendAs(body, "application/json", "Origin", "null")).isEqualTo(403);
        assertThat(sendAs(body, "application/json", "Origin", "http://127.0.0.1:1"))
                .isEqualTo(403);
        assertThat(sendAs(body, "application/json", "Sec-Fetch-Site", "cross-site"))
                .isEqualTo(403);
        assertThat(sendAs(body, "application/json", "Sec-Fetch-Site", "same-site"))
                .isEqualTo(403);
        assertThat(sendAs(body, "text/plain", "Origin", own)).isEqualTo(415);
        assertThat(sendAs(body, "application/x-www-form-urlencoded", "Origin", own))
                .isEqualTo(415);
        assertThat(get(JOURNAL)).hasSize(1);
        assertThat(sendAs(body, "application/json; charset=utf-8", "Origin", own))
                .isEqualTo(201);
    }

    private int sendAs(String body, String type, String header, String value) throws Exception {
        return client.send(
                        HttpRequest.newBuilder(uri(JOURNAL))
                                .header("Content-Type", type)
                                .header(header, value)
                                .POST(HttpRequest.BodyPublishers.ofString(body))
                                .build(),
                        HttpResponse.BodyHandlers.ofString())
                .statusCode();
    }

    private HttpResponse<String> send(String method, String path, String body) throws Exception {
        var request = HttpRequest.newBuilder(uri(path)).header("Content-Type", "application/json");
        request.method(
                method, body == null ? HttpRequest.BodyPublishers.noBody() : HttpRequest.BodyPublishers.ofString(body));
        return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private JsonNode get(String path) throws Exception {
        return MAPPER.readTree(
                client.send(HttpRequest.newBuilder(uri(path)).build(), HttpResponse.BodyHandlers.ofString())
                        .body());
    }

    private URI uri(String path) {
        return URI.create(server.address() + path.substring(1));
    }
}
