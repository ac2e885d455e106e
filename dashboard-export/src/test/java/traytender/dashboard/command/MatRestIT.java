package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.awaitility.Awaitility;
import org.eclipse.paho.client.mqttv3.MqttClient;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The one thing the program does of itself, from the sensor's message to the word at the mat's relay, with the packaged program. */
class MatRestIT {
    private static final Duration PATIENCE = Duration.ofSeconds(90);
    private static final String RELAY = "alder/mat-1/relay";

    @TempDir
    Path folder;

    @Test
    void matThatOverheats_isToldToRestOnce_andStandsAsStillOff() throws Exception {
        int port = PackagedProgram.freePort();
        Path site = SmallSite.in(folder.resolve("site"), port);
        Path file = site.resolve("site.yaml");
        Files.writeString(
                file,
                Files.readString(file)
                        .replace(
                                "trays:\n",
                                "mats:\n  - {id: mat-1, room: propagation, relay: {topic: %s, rest: \"rest\"}}\ntrays:\n"
                                        .formatted(RELAY))
                        .replace("    room: propagation\n", "    room: propagation\n    mat: mat-1\n"));
        List<String> atTheRelay = new CopyOnWriteArrayList<>();

        try (var program = PackagedProgram.start(folder, "run", "--site", site).awaitWell();
                var relay = new MqttClient("tcp://127.0.0.1:" + port, "relay", new MemoryPersistence())) {
            relay.connect();
            relay.subscribe(RELAY, 1, (topic, message) -> atTheRelay.add(message.toString()));
            // No seedling stands that at its roots.
            PackagedIT.sendHour(port, "\"temp\": 39.5");

            Awaitility.await()
                    .atMost(PATIENCE)
                    .until(() -> program.body("/api/v1/mats"), mats -> mats.contains("\"told\":{"));
            String alerts = program.body("/api/v1/alerts?open=true");
            assertThat(alerts).contains("\"mat-shut-off\"", "\"too-hot\"");
            assertThat(program.body("/api/v1/journal")).contains("\"mat-off\"");
            Awaitility.await().atMost(PATIENCE).until(() -> !atTheRelay.isEmpty());
            relay.disconnect();
            assertThat(program.stop()).isZero();
        }
        assertThat(atTheRelay).containsExactly("rest");
    }
}
