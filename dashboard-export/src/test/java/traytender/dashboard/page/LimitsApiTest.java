package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import java.net.http.HttpResponse;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Limits by HTTP. */
class LimitsApiTest {
    private static final String LIMITS = "/api/v1/limits";
    private static final String HIGHER = "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0.05}]}";

    @RegisterExtension
    final ServedBench served = new ServedBench();

    @Test
    void limits_comeWithTheirSourcesAndSayWhatStandsHere() throws Exception {
        JsonNode limits = served.json(LIMITS);

        assertThat(served.errors(LIMITS, "get", "200", limits)).isEmpty();
        assertThat(limits.at("/crops").findValuesAsText("crop")).containsExactly("tomato");
        assertThat(limits.at("/crops/0/stages/1/stage").asText()).isEqualTo("seedling");
        assertThat(limits.at("/crops/0/stages/1/standing").asBoolean()).isTrue();
        assertThat(limits.at("/crops/0/stages/1/limits/0/source").asText()).startsWith("our choice");
        assertThat(limits.at("/sources/S06").asText()).isNotBlank();
        assertThat(served.json(LIMITS + "?all=true").at("/crops").size()).isGreaterThan(15);
    }

    @Test
    void trial_isBegunFollowedAndAnswered() throws Exception {
        served.bench.storeReadings();

        HttpResponse<String> begun = served.send("POST", LIMITS + "/trials", HIGHER);

        assertThat(begun.statusCode()).isEqualTo(202);
        assertThat(served.errors(LIMITS + "/trials", "post", "202", ServedBench.json(begun)))
                .isEmpty();
        String trial =
                LIMITS + "/trials/" + ServedBench.json(begun).at("/number").asInt();
        await().until(() -> served.json(trial).at("/state").asText().equals("done"));
        JsonNode done = served.json(trial);
        assertThat(served.errors(LIMITS + "/trials/{number}", "get", "200", done))
                .isEmpty();
        assertThat(done.at("/differences").findValuesAsText("what")).contains("earlier");
        assertThat(served.send("DELETE", trial, null).statusCode()).isEqualTo(200);
        assertThat(served.get(LIMITS + "/trials/99").statusCode()).isEqualTo(404);
    }

    @Test
    void stays_tellWhatTheTraysDidBesideTheirLimits() throws Exception {
        served.bench.storeReadings();

        JsonNode stays = served.json(LIMITS + "/stays?days=4");

        assertThat(served.errors(LIMITS + "/stays", "get", "200", stays)).isEmpty();
        // The bench's journal tells of a feeding: it cuts the stay in two.
        assertThat(stays).hasSize(2);
        assertThat(stays.at("/0/crop").asText()).isEqualTo("tomato");
        assertThat(stays.at("/0/lowest").asDouble()).isCloseTo(0.4336, within(0.001));
        assertThat(stays.at("/0/below/hours").asDouble()).isPositive();
        assertThat(served.get(LIMITS + "/stays?days=0").statusCode()).isEqualTo(400);
    }

    @Test
    void noReadings_isSaid() throws Exception {
        assertThat(served.send("POST", LIMITS + "/trials", HIGHER).statusCode()).isEqualTo(409);
    }

    @Test
    void keptLimits_areInForceAndCanBeBroughtBack() throws Exception {
        HttpResponse<String> kept = served.send(
                "POST",
                LIMITS,
                "{\"changes\":[{\"crop\":\"tomato\",\"stage\":\"seedling\",\"limit\":\"dry-line\",\"by\":0.05}],\"who\":\"Mira\",\"why\":\"droops\"}");

        assertThat(kept.statusCode()).isEqualTo(201);
        assertThat(served.errors(LIMITS, "post", "201", ServedBench.json(kept))).isEmpty();
        assertThat(dryLine()).isEqualTo(0.5);
        HttpResponse<String> back = served.send("POST", LIMITS + "/versions/1/bring-back", "{}");
        assertThat(ServedBench.json(back)).hasSize(3);
        assertThat(dryLine()).isEqualTo(0.45);
        assertThat(served.send("POST", LIMITS + "/versions/77/bring-back", "{}").statusCode())
                .isEqualTo(404);
        assertThat(served.send("POST", LIMITS, "{\"changes\":[{\"limit\":\"dry-line\",\"by\":0}]}")
                        .statusCode())
                .isEqualTo(409);
    }

    private double dryLine() throws Exception {
        return served.json(LIMITS).at("/crops/0/stages/1/limits/0/value").asDouble();
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
        assertThat(served.send("POST", LIMITS + "/trials", body).statusCode()).isEqualTo(400);
        assertThat(served.send("POST", LIMITS, body).statusCode()).isEqualTo(400);
        assertThat(served.bench.limits().versions()).isEmpty();
    }
}
