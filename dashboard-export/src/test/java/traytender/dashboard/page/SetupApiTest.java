package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.google.zxing.BinaryBitmap;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import org.eclipse.paho.client.mqttv3.MqttTopic;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Setting up by HTTP, held against the served description. */
class SetupApiTest {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final String SITE = "/api/v1/site/";
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

    private String version() throws Exception {
        return json(get("setup")).at("/version").asText();
    }

    private HttpResponse<String> change(String version, String change) throws Exception {
        return post("changes", "{\"version\":\"" + version + "\",\"who\":\"Mira\",\"changes\":[" + change + "]}");
    }

    @Test
    void movedProbe_isWrittenTakenOverListedAndTakenBack() throws Exception {
        String before = Files.readString(folder.resolve("site.yaml"));

        HttpResponse<String> moved = change(
                version(),
                "{\"do\":\"move\",\"probe\":\"T01-moisture\",\"at\":{\"tray\":\"T01\",\"row\":2,\"column\":3},\"since\":\"2026-03-14T12:00:00Z\"}");

        assertThat(moved.statusCode()).isEqualTo(201);
        assertThat(errors("changes", "post", "201", json(moved))).isEmpty();
        assertThat(json(moved).at("/keys/probes/0/at/1/column").asInt()).isEqualTo(3);
        assertThat(bench.site().probe("T01-moisture").orElseThrow().at().values())
                .hasSize(2);
        JsonNode changes = json(get("changes"));
        assertThat(errors("changes", "get", "200", changes)).isEmpty();
        assertThat(changes.at("/0/what").asText())
                .isEqualTo("T01-moisture moved to T01, row 2, column 3 from 2026-03-14T12:00:00Z on");
        assertThat(changes.at("/0/who").asText()).isEqualTo("Mira");

        HttpResponse<String> back = post("changes/1/take-back", "{\"version\":\"" + version() + "\"}");

        assertThat(errors("changes/{number}/take-back", "post", "200", json(back)))
                .isEmpty();
        assertThat(Files.readString(folder.resolve("site.yaml"))).isEqualTo(before);
        assertThat(bench.site().probe("T01-moisture").orElseThrow().at().values())
                .hasSize(1);
    }

    @Test
    void twoAtOnce_loseNothing() throws Exception {
        String seen = version();
        String first = "{\"do\":\"put\",\"of\":\"trays\",\"id\":\"T01\",\"keys\":{\"bench\":\"south\"}}";
        String second = "{\"do\":\"put\",\"of\":\"trays\",\"id\":\"T01\",\"keys\":{\"medium\":\"coir\"}}";

        assertThat(change(seen, first).statusCode()).isEqualTo(201);
        HttpResponse<String> stale = change(seen, second);

        assertThat(stale.statusCode()).isEqualTo(409);
        assertThat(stale.body()).contains("changed meanwhile");
        assertThat(bench.site().trays().get(0).medium()).isEqualTo("peat-perlite");
        assertThat(change(version(), second).statusCode()).isEqualTo(201);
        assertThat(bench.site().trays().get(0).bench()).isEqualTo("south");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{\"do\":\"put\",\"of\":\"trays\",\"id\":\"T01\",\"keys\":{\"room\":\"attic\"}} | 422 | there is no room",
                "{\"do\":\"put\",\"of\":\"trays\",\"id\":\"T01\",\"keys\":{\"cells\":{\"rows\":0,\"columns\":4}}} | 422 | rows is",
                "{\"do\":\"put\",\"of\":\"trays\",\"id\":\"T01\",\"keys\":{\"colour\":\"red\"}} | 422 | unknown key",
                "{\"do\":\"remove\",\"of\":\"rooms\",\"id\":\"propagation\"} | 422 | no room",
                "{\"do\":\"remove\",\"of\":\"trays\",\"id\":\"T99\"} | 422 | there is no tray T99",
                "{\"do\":\"calibrate\",\"probe\":\"T01-moisture\",\"calibration\":{\"dry\":5,\"wet\":5}} | 422 | both 5",
                "{\"do\":\"paint\"} | 400 | do is none of",
                "{\"do\":\"sow\",\"tray\":\"T01\"} | 400 | items is missing",
                "{\"do\":\"put\",\"of\":\"trays\",\"id\":\"T01\",\"keys\":3} | 400 | object",
            })
    void wrongChange_isRefusedWithAWord_andNothingIsWritten(String change, int status, String word) throws Exception {
        String before = Files.readString(folder.resolve("site.yaml"));

        HttpResponse<String> refused = change(version(), change);

        assertThat(refused.statusCode()).as(refused.body()).isEqualTo(status);
        assertThat(json(refused).at("/error").asText()).contains(word);
        assertThat(errors("changes", "post", String.valueOf(status), json(refused)))
                .isEmpty();
        assertThat(Files.readString(folder.resolve("site.yaml"))).isEqualTo(before);
    }

    @Test
    void anotherSite_canChangeNothing() throws Exception {
        var request = HttpRequest.newBuilder(uri("changes"))
                .header("Content-Type", "application/json")
                .header("Origin", "https://elsewhere.example")
                .POST(HttpRequest.BodyPublishers.ofString("{}"))
                .build();

        assertThat(client.send(request, HttpResponse.BodyHandlers.ofString()).statusCode())
                .isEqualTo(403);
    }

    @Test
    void otherCalibration_isTriedOnTheLastDay() throws Exception {
        bench.storeReadings();

        HttpResponse<String> tried =
                post("calibration-trial", "{\"probe\":\"T01-moisture\",\"calibration\":{\"dry\":2900,\"wet\":1700}}");

        JsonNode trial = json(tried);
        assertThat(errors("calibration-trial", "post", "200", trial)).isEmpty();
        assertThat(trial.at("/readings").size()).isEqualTo(144);
        // Raw 2900 - 1600 m stands for m by the calibration in force, and for m * 1600 / 1200 by the other one.
        for (JsonNode point : trial.at("/readings")) {
            double before = point.get(1).asDouble();
            assertThat(point.get(2).asDouble())
                    .isCloseTo(Math.min(1.0, before * 4 / 3), org.assertj.core.api.Assertions.within(0.001));
        }
        assertThat(Files.readString(folder.resolve("site.yaml"))).contains("wet: 1300");
        assertThat(post("calibration-trial", "{\"probe\":\"T09\",\"calibration\":{\"dry\":1,\"wet\":2}}")
                        .statusCode())
                .isEqualTo(404);
    }

    @Test
    void rawReadings_areThereWhileTheProbeIsHeld() throws Exception {
        bench.storeReadings();

        JsonNode held = json(get("hand?probe=T01-moisture&since=2026-03-14T11:00:00Z"));

        assertThat(errors("hand", "get", "200", held)).isEmpty();
        assertThat(held.at("/readings").size()).isEqualTo(6);
        assertThat(get("hand?probe=T99").statusCode()).isEqualTo(404);
    }

    @Test
    void credentials_areShownOnceAndTakenAway() throws Exception {
        HttpResponse<String> given = post("devices", "{\"name\":\"T01\",\"topics\":[\"alder/T01/#\"]}");
        post("devices", "{\"name\":\"T02\",\"topics\":[\"alder/T02/#\"]}");

        assertThat(given.statusCode()).isEqualTo(201);
        assertThat(errors("devices", "post", "201", json(given))).isEmpty();
        String password = json(given).at("/password").asText();
        assertThat(password).hasSize(20);
        assertThat(readByCamera(json(given).at("/qr")))
                .isEqualTo("host: 127.0.0.1\nport: "
                        + json(get("devices")).at("/port").asInt() + "\nuser: T01\npassword: " + password
                        + "\ntopic: alder/T01\n");
        assertThat(json(given).at("/topic").asText()).isEqualTo("alder/T01");
        assertThat(Files.readString(folder.resolve("passwords")))
                .doesNotContain(password)
                .contains("T01 $2a$");
        JsonNode devices = json(get("devices"));
        assertThat(errors("devices", "get", "200", devices)).isEmpty();
        assertThat(devices.at("/users").findValuesAsText("name")).containsExactly("T01", "T02");

        HttpResponse<String> left = send("DELETE", "devices/T01", null);

        assertThat(errors("devices/{name}", "delete", "200", json(left))).isEmpty();
        assertThat(json(left).at("/users").findValuesAsText("name")).containsExactly("T02");
        assertThat(send("DELETE", "devices/T01", null).statusCode()).isEqualTo(404);
        assertThat(send("DELETE", "devices/T02", null).statusCode()).isEqualTo(422);
        assertThat(post("devices", "{\"name\":\"T 1\",\"topics\":[\"x\"]}").statusCode())
                .isEqualTo(422);
    }

    @ParameterizedTest
    @CsvSource({
        "T01,alder/T01/#,alder/T01",
        "T01,alder/#,alder/T01",
        "T01,#,T01",
        "T01,alder/+/soil,alder/T01/soil",
        "T01,alder/air,alder/air"
    })
    void topicOfADevice_isOneThatItsFilterMatches(String name, String filter, String topic) {
        assertThat(DevicesApi.topic(name, filter)).isEqualTo(topic);
        // By another library's reading of the standard.
        assertThat(MqttTopic.isMatched(filter, topic)).isTrue();
    }

    @Test
    void setupAndSensors_areAsDescribed() throws Exception {
        assertThat(errors("setup", "get", "200", json(get("setup")))).isEmpty();
        assertThat(errors("sensors", "get", "200", json(get("sensors")))).isEmpty();
        assertThat(json(get("setup")).at("/keys/trays/0/cells/columns").asInt()).isEqualTo(4);
        assertThat(json(get("setup")).at("/crops").size()).isGreaterThan(20);
    }

    /** What another library (ZXing) reads from the code as the page draws it, with its quiet zone. */
    private static String readByCamera(JsonNode rows) throws Exception {
        int quiet = 4;
        int scale = 4;
        int side = (rows.size() + 2 * quiet) * scale;
        int[] pixels = new int[side * side];
        java.util.Arrays.fill(pixels, 0xffffff);
        for (int i = 0; i < pixels.length; i++) {
            int y = i / side / scale - quiet;
            int x = i % side / scale - quiet;
            boolean inside = y >= 0 && x >= 0 && y < rows.size() && x < rows.size();
            if (inside && rows.get(y).asText().charAt(x) == '1') {
                pixels[i] = 0;
            }
        }
        var image = new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(side, side, pixels)));
        return new QRCodeReader().decode(image).getText();
    }

    private java.util.List<String> errors(String path, String method, String status, JsonNode answer) throws Exception {
        return ApiDescription.of(server).errors(SITE + path, method, status, answer);
    }

    private URI uri(String path) {
        return URI.create(server.address() + SITE.substring(1) + path);
    }

    private HttpResponse<String> get(String path) throws Exception {
        return client.send(HttpRequest.newBuilder(uri(path)).build(), HttpResponse.BodyHandlers.ofString());
    }

    private HttpResponse<String> post(String path, String body) throws Exception {
        return send("POST", path, body);
    }

    private HttpResponse<String> send(String method, String path, String body) throws Exception {
        var request = HttpRequest.newBuilder(uri(path))
                .header("Content-Type", "application/json")
                .method(
                        method,
                        body == null ? HttpRequest.BodyPublishers.noBody() : HttpRequest.BodyPublishers.ofString(body))
                .build();
        return client.send(request, HttpResponse.BodyHandlers.ofString());
    }

    private static JsonNode json(HttpResponse<String> response) throws Exception {
        return MAPPER.readTree(response.body());
    }
}
