package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.journal.EntryKind;

/** The journal by HTTP, as the page and a script write it. */
class JournalApiTest {
    private static final String JOURNAL = "/api/v1/journal";

    @RegisterExtension
    final ServedBench served = new ServedBench();

    @Test
    void entry_isWrittenWithItsDetailAndAnsweredAsItStands() throws Exception {
        HttpResponse<String> answer = served.send("POST", JOURNAL, """
                {"tray":"T01","entry":"watered","time":"2026-03-14T11:30:00+00:00",
                 "detail":{"zones":"centre","litres":1.5,"from":"below"},"note":"dry; at the front"}""");

        assertThat(answer.statusCode()).isEqualTo(201);
        JsonNode kept = ServedBench.json(answer);
        assertThat(kept.at("/state").asText()).isEqualTo("counts");
        assertThat(kept.at("/detail").toString())
                .isEqualTo("{\"from\":\"below\",\"litres\":\"1.5\",\"zones\":\"centre\"}");
        assertThat(kept.at("/note").asText()).isEqualTo("dry; at the front");
        assertThat(served.errors(JOURNAL, "post", "201", kept)).isEmpty();
        JsonNode listed = served.json(JOURNAL + "?tray=T01&from=2026-03-14T11:30:00Z&to=2026-03-14T11:30:01Z");
        assertThat(listed).hasSize(1);
        assertThat(listed.at("/0/number")).isEqualTo(kept.at("/number"));
    }

    @ParameterizedTest
    @EnumSource(EntryKind.class)
    void everyKindOfEntry_canBeWritten(EntryKind kind) throws Exception {
        HttpResponse<String> answer = served.send(
                "POST", JOURNAL, "{\"tray\":\"T01\",\"entry\":\"" + kind.word() + "\",\"detail\":{\"rows\":\"1\"}}");

        assertThat(answer.statusCode()).isEqualTo(201);
        JsonNode kept = ServedBench.json(answer);
        assertThat(kept.at("/time").asText()).isEqualTo("2026-03-14T12:00:00Z");
        assertThat(served.errors(JOURNAL, "post", "201", kept)).isEmpty();
    }

    @Test
    void severalEntries_areOneGroup_allOrNone() throws Exception {
        String watered = "{\"tray\":\"T01\",\"entry\":\"watered\"}";

        HttpResponse<String> none =
                served.send("POST", JOURNAL, "[" + watered + ",{\"tray\":\"T99\",\"entry\":\"watered\"}]");

        assertThat(none.statusCode()).isEqualTo(400);
        assertThat(served.json(JOURNAL)).hasSize(1);
        assertThat(ServedBench.json(served.send("POST", JOURNAL, "[" + watered + "]")))
                .hasSize(1);
        assertThat(served.json(JOURNAL)).hasSize(2);
    }

    @Test
    void entryThatDoesLessThanItSays_isKeptAndTellsWhy() throws Exception {
        JsonNode kept = ServedBench.json(
                served.send("POST", JOURNAL, "{\"tray\":\"T01\",\"entry\":\"moved\",\"detail\":{\"to\":\"attic\"}}"));

        assertThat(kept.at("/doubts/0").asText()).isEqualTo("there is no room named attic");
    }

    @Test
    void withdrawnEntry_staysVisibleAsWithdrawn_andCanBeBroughtBack() throws Exception {
        long number = served.json(JOURNAL).at("/0/number").asLong();

        JsonNode withdrawn = ServedBench.json(served.send("DELETE", JOURNAL + "/" + number, null));

        assertThat(withdrawn.at("/state").asText()).isEqualTo("withdrawn");
        assertThat(served.json(JOURNAL)).isEmpty();
        assertThat(served.json(JOURNAL + "?past=true").at("/0/state").asText()).isEqualTo("withdrawn");
        assertThat(served.send("POST", JOURNAL + "/" + number + "/bring-back", "{}")
                        .body())
                .contains("\"counts\"");
        assertThat(served.json(JOURNAL)).hasSize(1);
    }

    @Test
    void correction_putsTheRightEntryInThePlaceOfTheWrongOne_whichStaysOnRecord() throws Exception {
        long number = served.json(JOURNAL).at("/0/number").asLong();

        HttpResponse<String> answer = served.send(
                "PUT",
                JOURNAL + "/" + number,
                "{\"tray\":\"T01\",\"entry\":\"fed\",\"time\":\"2026-03-13T16:00:00Z\"}");

        JsonNode right = ServedBench.json(answer);
        assertThat(right.at("/entry").asText()).isEqualTo("fed");
        assertThat(served.json(JOURNAL).findValuesAsText("entry")).containsExactly("fed");
        JsonNode all = served.json(JOURNAL + "?past=true");
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
        HttpResponse<String> answer = served.send("POST", JOURNAL, body);

        assertThat(answer.statusCode()).isEqualTo(400);
        assertThat(ServedBench.json(answer).get("error").asText()).isNotBlank().doesNotContain("Exception");
        assertThat(served.json(JOURNAL)).hasSize(1);
    }

    @Test
    void entryThatIsNotThere_isAnswered404() throws Exception {
        for (String number : List.of("99", "0", "-1", "one")) {
            assertThat(served.send("DELETE", JOURNAL + "/" + number, null).statusCode())
                    .as(number)
                    .isEqualTo(404);
        }
    }

    @Test
    void anotherWebSite_canChangeNothing() throws Exception {
        String body = "{\"tray\":\"T01\",\"entry\":\"watered\"}";
        String own = "http://127.0.0.1:" + served.server.address().getPort();

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
        assertThat(served.json(JOURNAL)).hasSize(1);
        assertThat(sendAs(body, "application/json; charset=utf-8", "Origin", own))
                .isEqualTo(201);
    }

    private int sendAs(String body, String type, String header, String value) throws Exception {
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(served.at(JOURNAL))
                                .header("Content-Type", type)
                                .header(header, value)
                                .POST(HttpRequest.BodyPublishers.ofString(body))
                                .build(),
                        HttpResponse.BodyHandlers.ofString())
                .statusCode();
    }
}
