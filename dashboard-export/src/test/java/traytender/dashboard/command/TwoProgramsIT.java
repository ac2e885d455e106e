package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteReader;
import traytender.dashboard.program.Stores;
import traytender.testing.Influxd;
import traytender.testing.Mosquitto;
import traytender.testing.NeedsServer;

/**
 * A nursery split over two programs with one broker and one long-term database between them: each has its own trays, topics, probes' names
 * and prefix, and can be restarted alone.
 */
@NeedsServer({"mosquitto", "mosquitto_pub", "mosquitto_sub", "influxd"})
class TwoProgramsIT {
    private static final Duration PATIENCE = Duration.ofSeconds(120);

    @TempDir
    Path folder;

    private Mosquitto broker;
    private Influxd longTerm;

    @BeforeEach
    void startServers() throws IOException {
        broker = Mosquitto.start(Files.createDirectories(folder.resolve("broker")));
        longTerm = Influxd.start(folder.resolve("influx"));
    }

    @AfterEach
    void stopServers() {
        broker.close();
        longTerm.close();
    }

    /** The second one comes back on a machine that was set to the other side of the earth meanwhile; the site's own zone is what counts. */
    @Test
    void twoPrograms_eachKeepTheirOwn_alsoWhileTheOtherOrInfluxDbIsAway() throws Exception {
        Path north = site("north", "N01");
        Path south = site("south", "S01");
        try (var first = start("Europe/Dublin", north)) {
            try (var second = start("Europe/Dublin", south)) {
                send("north", 80, 71);
                send("south", 80, 71);
                await(north, 10);
                await(south, 10);
                awaitSentOn("N01", 10);
                awaitSentOn("S01", 10);
                second.awaitBalanced();
                assertThat(second.stop()).isZero();
            }
            // What is sent for the one that is away waits with the broker, an hour for InfluxDB with the program; the
            // other goes on.
            longTerm.stop();
            send("north", 60, 1);
            send("south", 60, 1);
            await(north, 70);
            Awaitility.await()
                    .atMost(PATIENCE)
                    .until(() -> first.body("/health").contains("InfluxDB takes no readings, 60 wait on disk"));
            assertThat(first.health()).isEqualTo(200);
            awaitHeard("+/status", "north/status watching", "south/status gone");
            longTerm.startAgain();
            try (var second = start("Pacific/Auckland", south)) {
                await(south, 70);
                awaitSentOn("N01", 70);
                awaitSentOn("S01", 70);
                awaitHeard("+/alerts/+/dry/centre", "north/alerts/N01", "south/alerts/S01");
                first.awaitBalanced();
                second.awaitBalanced();
                assertThat(second.body("/api/v1/counts")).contains("\"stored\":60");
                assertThat(second.stop()).isZero();
            }
            assertThat(first.metric("traytender_readings_stored_total")).isEqualTo(70);
            assertThat(first.metric("traytender_influxdb_sent_total")).isEqualTo(70);
            assertThat(first.stop()).isZero();
        }
    }

    private PackagedProgram start(String zone, Path site) throws IOException {
        return PackagedProgram.start(List.of("env", "TZ=" + zone), folder, "run", "--site", site)
                .awaitWell();
    }

    private Path site(String name, String tray) throws IOException {
        Path site = SmallSite.in(folder.resolve(name));
        Files.writeString(site.resolve("influx.password"), longTerm.password() + "\n");
        Path file = site.resolve("site.yaml");
        Files.writeString(
                file,
                Files.readString(file)
                                .replace("alder/T01", name + "-house")
                                .replace("T01", tray)
                                .replace("built-in\n  port: 0", '"' + broker.uri() + "\"\n  prefix: " + name)
                        + "store:\n  influxdb: {url: \"" + longTerm.url() + "\", database: alder, user: "
                        + longTerm.user() + ", password-file: influx.password}\n");
        return site;
    }

    /** Readings far below the dry line, a minute apart, from so many minutes ago until so many minutes ago. */
    private void send(String name, int from, int to) {
        Instant now = Clock.systemUTC().instant().truncatedTo(ChronoUnit.MINUTES);
        for (int minute = from; minute >= to; minute--) {
            broker.publish(
                    name + "-house/centre",
                    "{\"soil\": 2700, \"at\": \"" + now.minus(minute, ChronoUnit.MINUTES) + "\"}");
        }
    }

    private void awaitHeard(String topics, String... beginnings) {
        Awaitility.await().atMost(PATIENCE).untilAsserted(() -> {
            List<String> heard = broker.hear(topics, "-W", "2");
            assertThat(heard).hasSize(beginnings.length);
            for (String beginning : beginnings) {
                assertThat(heard).anyMatch(line -> line.startsWith(beginning));
            }
        });
    }

    private void awaitSentOn(String tray, int count) {
        Awaitility.await()
                .atMost(PATIENCE)
                .ignoreExceptions()
                .until(() ->
                        longTerm.query("alder", "SELECT raw FROM reading WHERE probe = '" + tray + "-centre-moisture'")
                                        .size()
                                == count);
    }

    private static void await(Path site, long count) {
        Awaitility.await().atMost(PATIENCE).until(() -> {
            try (var store = Stores.toRead(SiteReader.read(site))) {
                return store.readings().count() == count;
            }
        });
    }
}
