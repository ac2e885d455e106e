package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteReader;
import traytender.dashboard.program.Stores;
import traytender.testing.Mosquitto;
import traytender.testing.NeedsServer;

/** A nursery split over two programs with one broker between them: each has its own trays, topics and prefix, and can be restarted alone. */
@NeedsServer({"mosquitto", "mosquitto_pub", "mosquitto_sub"})
class TwoProgramsIT {
    private static final Duration PATIENCE = Duration.ofSeconds(120);

    @TempDir
    Path folder;

    @Test
    void twoProgramsAtOneBroker_eachKeepItsOwn_alsoWhileTheOtherIsAway() throws Exception {
        try (Mosquitto broker = Mosquitto.start(Files.createDirectories(folder.resolve("broker")))) {
            Path north = site("north", broker);
            Path south = site("south", broker);
            try (var first =
                    PackagedProgram.start(folder, "run", "--site", north).awaitWell()) {
                try (var second =
                        PackagedProgram.start(folder, "run", "--site", south).awaitWell()) {
                    send(broker, "north", 30, 21);
                    send(broker, "south", 30, 21);
                    await(north, 10);
                    await(south, 10);
                    assertThat(second.stop()).isZero();
                }
                // What the broker takes for the one that is away waits for it; the other one goes on.
                send(broker, "north", 20, 1);
                send(broker, "south", 20, 1);
                await(north, 30);
                Awaitility.await()
                        .atMost(PATIENCE)
                        .untilAsserted(() -> assertThat(broker.hear("+/status", "-W", "2"))
                                .containsExactlyInAnyOrder("north/status watching", "south/status gone"));
                try (var second =
                        PackagedProgram.start(folder, "run", "--site", south).awaitWell()) {
                    await(south, 30);
                    Awaitility.await()
                            .atMost(PATIENCE)
                            .untilAsserted(() -> assertThat(broker.hear("+/alerts/T01/dry/centre", "-W", "2"))
                                    .hasSize(2)
                                    .anyMatch(line -> line.startsWith("north/"))
                                    .anyMatch(line -> line.startsWith("south/")));
                    assertThat(second.stop()).isZero();
                }
                assertThat(first.stop()).isZero();
            }
        }
    }

    private Path site(String name, Mosquitto broker) throws IOException {
        Path site = SmallSite.in(folder.resolve(name));
        Path file = site.resolve("site.yaml");
        Files.writeString(
                file,
                Files.readString(file)
                        .replace("alder/", name + "-house/")
                        .replace("built-in\n  port: 0", '"' + broker.uri() + "\"\n  prefix: " + name));
        return site;
    }

    /** Readings far below the dry line, a minute apart, from so many minutes ago until so many minutes ago. */
    private static void send(Mosquitto broker, String name, int from, int to) {
        Instant now = Clock.systemUTC().instant().truncatedTo(ChronoUnit.MINUTES);
        for (int minute = from; minute >= to; minute--) {
            broker.publish(
                    name + "-house/T01/centre",
                    "{\"soil\": 2700, \"at\": \"" + now.minus(minute, ChronoUnit.MINUTES) + "\"}");
        }
    }

    private static void await(Path site, long count) {
        Awaitility.await().atMost(PATIENCE).until(() -> {
            try (var store = Stores.toRead(SiteReader.read(site))) {
                return store.readings().count() == count;
            }
        });
    }
}
