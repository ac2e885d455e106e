package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.testing.Mosquitto;
import traytender.testing.NeedsServer;

/** End to end with somebody else's broker: a sensor's messages in, an alert out, on the page and over MQTT. */
@NeedsServer({"mosquitto", "mosquitto_pub", "mosquitto_sub"})
class MosquittoIT {
    private static final Duration PATIENCE = Duration.ofSeconds(90);

    @TempDir
    Path folder;

    @Test
    void dryZone_isToldOnThePageAndOverMqtt() throws Exception {
        try (Mosquitto broker = Mosquitto.start(Files.createDirectories(folder.resolve("broker")))) {
            Path site = SmallSite.in(folder.resolve("site"));
            Path file = site.resolve("site.yaml");
            Files.writeString(file, Files.readString(file).replace("built-in\n  port: 0", "\"" + broker.uri() + "\""));
            try (var program =
                    PackagedProgram.start(folder, "run", "--site", site).awaitWell()) {
                Instant now = Clock.systemUTC().instant().truncatedTo(ChronoUnit.SECONDS);
                for (int minute = 40; minute >= 1; minute--) {
                    broker.publish("alder/T01/centre", reading(2700, now.minus(minute, ChronoUnit.MINUTES)));
                }

                Awaitility.await()
                        .atMost(PATIENCE)
                        .until(() -> program.body("/api/v1/alerts?open=true").contains("\"dry\""));
                assertThat(heard(broker, "traytender/alerts/T01/dry/centre")).contains("\"kind\":\"dry\"", "\"do\":");
                assertThat(heard(broker, "traytender/call")).contains("now");
                assertThat(heard(broker, "traytender/status")).contains("watching");

                assertThat(program.stop()).isZero();
                assertThat(heard(broker, "traytender/status")).contains("gone");
            }
        }
    }

    private static String heard(Mosquitto broker, String topic) {
        return Awaitility.await()
                .atMost(PATIENCE)
                .until(() -> String.join("\n", broker.hear(topic, "-W", "2")), text -> !text.isBlank());
    }

    private static String reading(int soil, Instant at) {
        return "{\"soil\": " + soil + ", \"at\": \"" + at + "\"}";
    }
}
