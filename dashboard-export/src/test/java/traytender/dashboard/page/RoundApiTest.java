package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.KeptEntry;

/** What the grower does on the round, by HTTP. The fixture's a1 is drying soon, a2 a mat too hot, a3 closed. */
class RoundApiTest {
    private static final String ROUND = "/api/v1/round";

    @RegisterExtension
    final ServedBench served = new ServedBench();

    @Test
    void dryAlertDone_writesTheWateringOfItsZone_andUndoTakesItBack() throws Exception {
        HttpResponse<String> answer = post("{\"mark\":\"done\",\"alerts\":[\"a1\"],\"watered\":{\"from\":\"below\"}}");

        assertThat(answer.statusCode()).isEqualTo(201);
        JsonNode act = ServedBench.json(answer);
        assertThat(served.errors(ROUND, "post", "201", act)).isEmpty();
        assertThat(act.at("/until").asText()).isEqualTo("2026-03-14T14:00:00Z");
        assertThat(newEntries()).containsExactly("watered from=below;zones=corner-front-left");
        assertThat(markOf("a1").at("/mark").asText()).isEqualTo("done");

        assertThat(delete(act.at("/act").asLong()).statusCode()).isEqualTo(200);
        assertThat(delete(act.at("/act").asLong()).statusCode()).isEqualTo(404);
        assertThat(newEntries()).isEmpty();
        assertThat(markOf("a1").isNull()).isTrue();
    }

    @Test
    void wholeTrayWatered_isOneEntryWithoutZones() throws Exception {
        post("{\"mark\":\"done\",\"alerts\":[\"a1\"],\"watered\":{\"trays\":[\"T01\"]}}");

        assertThat(newEntries()).containsExactly("watered ");
    }

    @Test
    void matToBeTurnedOffDone_writesMatOff() throws Exception {
        post("{\"mark\":\"done\",\"alerts\":[\"a2\"]}");

        assertThat(newEntries()).containsExactly("mat-off ");
    }

    @Test
    void later_asksAgainAfterItsHours_andWritesNothing() throws Exception {
        JsonNode act = ServedBench.json(post("{\"mark\":\"later\",\"alerts\":[\"a1\",\"a3\"],\"hours\":1.5}"));

        assertThat(act.at("/until").asText()).isEqualTo("2026-03-14T13:30:00Z");
        assertThat(act.at("/holds").asBoolean()).isTrue();
        assertThat(newEntries()).isEmpty();
        assertThat(markOf("a3").isNull()).as("closed before").isTrue();
    }

    @Test
    void notSoAndSeen_holdForGood() throws Exception {
        for (String mark : List.of("not-so", "seen")) {
            post("{\"mark\":\"" + mark + "\",\"alerts\":[\"a1\"]}");

            assertThat(markOf("a1").at("/mark").asText()).isEqualTo(mark);
            assertThat(markOf("a1").at("/until").isNull()).isTrue();
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{}",
                "{\"mark\":\"done\"}",
                "{\"mark\":\"done\",\"alerts\":[]}",
                "{\"mark\":\"done\",\"alerts\":\"a1\"}",
                "{\"mark\":\"done\",\"alerts\":[7]}",
                "{\"mark\":\"gone\",\"alerts\":[\"a1\"]}",
                "{\"mark\":\"later\",\"alerts\":[\"a1\"]}",
                "{\"mark\":\"later\",\"alerts\":[\"a1\"],\"hours\":0}",
                "{\"mark\":\"later\",\"alerts\":[\"a1\"],\"hours\":\"2\"}",
                "{\"mark\":\"done\",\"alerts\":[\"a1\"],\"hours\":2}",
                "{\"mark\":\"done\",\"alerts\":[\"a1\"],\"watered\":{\"from\":\"aside\"}}",
                "{\"mark\":\"done\",\"alerts\":[\"a1\"],\"watered\":{\"trays\":[\"T99\"]}}",
                "{\"mark\":\"done\",\"alerts\":[\"a1\"],\"watered\":{\"litres\":2}}",
            })
    void wrongAct_isAnswered400_andNothingIsWritten(String body) throws Exception {
        assertThat(post(body).statusCode()).isEqualTo(400);
        assertThat(newEntries()).isEmpty();
        assertThat(served.bench.marks()).isEmpty();
    }

    @Test
    void alertsThatAreNotOpen_areAnswered404() throws Exception {
        assertThat(post("{\"mark\":\"done\",\"alerts\":[\"a3\",\"nobody\"]}").statusCode())
                .isEqualTo(404);
    }

    private JsonNode markOf(String alert) throws Exception {
        JsonNode alerts = served.json("/api/v1/alerts");
        for (JsonNode one : alerts) {
            if (one.at("/id").asText().equals(alert)) {
                return one.at("/mark");
            }
        }
        throw new AssertionError("no alert " + alert);
    }

    private List<String> newEntries() {
        return served.bench.journal().stream()
                .filter(KeptEntry::counts)
                .map(KeptEntry::entry)
                .filter(entry -> entry.time().equals(BenchFixture.NOW))
                .map(RoundApiTest::words)
                .toList();
    }

    private static String words(JournalEntry entry) {
        return entry.kind().word() + " " + entry.detailText();
    }

    private HttpResponse<String> post(String body) throws Exception {
        return served.send("POST", ROUND, body);
    }

    private HttpResponse<String> delete(long act) throws Exception {
        return served.send("DELETE", ROUND + "/" + act, null);
    }
}
