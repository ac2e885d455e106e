package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.locks.LockSupport;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteReader;
import traytender.config.reading.Reading;
import traytender.dashboard.page.PageSettings;
import traytender.dashboard.program.Program;
import traytender.dashboard.program.Stores;
import traytender.testing.Mosquitto;
import traytender.testing.NeedsServer;

/**
 * The whole program killed at random moments while sensors send as fast as they can: whatever a sensor was told is taken is in the
 * store, with the value it sent, and the alerts are those of a program that was never disturbed. {@code -Dkills=100} is the long
 * form.
 */
class KillIT {
    private static final Duration PATIENCE = Duration.ofSeconds(180);
    private static final int KILLS = Integer.getInteger("kills", 2);
    /** Moments are drawn from it; what the program is doing then is chance anyway. */
    private static final long SEED = Long.getLong("kill.seed", 20260314L);
    /** Latest moment of a kill, counted from the start of the process or from the moment it is well, in ms. */
    private static final int LATEST_MS = 3_000;

    private static final List<String> PROBES =
            List.of("T01-centre", "T01-between", "T01-edge-front", "T01-corner-front-left");

    @TempDir
    Path folder;

    @Test
    void builtInBroker_killedWithTheProgram_losesNothingThatASensorWasToldIsTaken() throws Exception {
        int port = PackagedProgram.freePort();
        killAgainAndAgain("built-in broker", "built-in\n  port: " + port, port);
    }

    @Test
    @NeedsServer("mosquitto")
    void outsideBroker_programKilled_losesNothingThatASensorWasToldIsTaken() throws Exception {
        try (Mosquitto broker = Mosquitto.startInMemory(Files.createDirectories(folder.resolve("broker")))) {
            killAgainAndAgain("mosquitto", '"' + broker.uri() + '"', broker.port());
        }
    }

    private void killAgainAndAgain(String brokerName, String broker, int port) throws Exception {
        Path site = site("site", broker);
        var random = new Random(SEED);
        Instant first =
                Clock.systemUTC().instant().truncatedTo(ChronoUnit.SECONDS).minus(40, ChronoUnit.HOURS);
        // The session that messages wait in begins with the first connection.
        try (var program = start(site).awaitWell()) {
            program.kill();
        }
        var sensors = new ArrayList<PatientSensor>();
        try {
            PROBES.forEach(probe ->
                    sensors.add(PatientSensor.start(port, probe, "alder/" + probe, first, KILLS > 10 ? 1 : 4)));
            for (int kill = 0; kill < KILLS; kill++) {
                try (var program = start(site)) {
                    // One in four does not even live to see the end of its start.
                    if (random.nextInt(4) > 0) {
                        program.awaitWell();
                    }
                    LockSupport.parkNanos(
                            Duration.ofMillis(random.nextInt(LATEST_MS)).toNanos());
                    program.kill();
                }
            }
            recover(site, sensors);
            assertStoredWhole(brokerName, site, sensors);
        } finally {
            sensors.forEach(PatientSensor::close);
        }
    }

    private PackagedProgram start(Path site) throws IOException {
        return PackagedProgram.start(folder, "run", "--site", site);
    }

    private void recover(Path site, List<PatientSensor> sensors) throws Exception {
        try (var program = start(site).awaitWell()) {
            for (PatientSensor sensor : sensors) {
                sensor.finish();
            }
            int sent = sensors.stream()
                    .mapToInt(sensor -> sensor.acknowledged().size())
                    .sum();
            Awaitility.await().atMost(PATIENCE).until(() -> stored(site) == sent);
            JsonNode counts = tree(program.body("/api/v1/counts"));
            assertThat(counts.get("received").asLong())
                    .isEqualTo(counts.get("stored").asLong()
                            + counts.get("repeated").asLong());
            JsonNode expected = undisturbed(sensors);
            assertThat(expected).isNotEmpty();
            Awaitility.await()
                    .atMost(PATIENCE)
                    .untilAsserted(() ->
                            assertThat(tree(program.body("/api/v1/alerts"))).isEqualTo(expected));
            assertThat(program.stop()).isZero();
        }
    }

    private static long stored(Path site) {
        try (var store = Stores.toRead(SiteReader.read(site))) {
            return store.readings().count();
        }
    }

    private static void assertStoredWhole(String broker, Path site, List<PatientSensor> sensors) {
        int acknowledged = 0;
        int missing = 0;
        var folder = SiteReader.read(site);
        try (var store = Stores.toRead(folder)) {
            for (PatientSensor sensor : sensors) {
                Map<Long, Double> raw = new HashMap<>();
                var probe = folder.site().probe(sensor.probe()).orElseThrow();
                for (Reading reading : store.readings().readings(probe, Instant.MIN, Instant.MAX)) {
                    raw.put(reading.timeMs(), reading.raw());
                }
                for (int number : sensor.acknowledged()) {
                    acknowledged++;
                    if (!Double.valueOf(sensor.value(number))
                            .equals(raw.get(sensor.time(number).toEpochMilli()))) {
                        missing++;
                    }
                }
            }
        }
        System.out.printf("%s: %d kills, %d messages acknowledged, %d missing%n", broker, KILLS, acknowledged, missing);
        assertThat(missing).isZero();
        assertThat(acknowledged).isGreaterThan(20 * KILLS);
    }

    /** The alerts of a program that got the same readings from a file. */
    private JsonNode undisturbed(List<PatientSensor> sensors) throws Exception {
        Path site = site("undisturbed", "built-in\n  port: 0");
        Path file = folder.resolve("all.csv");
        try (var csv = Files.newBufferedWriter(file)) {
            csv.write("time,probe,value\n");
            for (PatientSensor sensor : sensors) {
                for (int number : sensor.acknowledged()) {
                    csv.write(sensor.time(number) + "," + sensor.probe() + "," + sensor.value(number) + "\n");
                }
            }
        }
        int status =
                Traytender.commandLine(Clock.systemUTC()).execute("import", "--site", site.toString(), file.toString());
        assertThat(status).isZero();
        var settings = new PageSettings("127.0.0.1", 0, site.resolve("page.password"));
        try (var program = Program.start(SiteReader.read(site), settings, Clock.systemUTC())) {
            Awaitility.await().atMost(PATIENCE).until(program::isWell);
            try (var alerts = program.page().resolve("/api/v1/alerts").toURL().openStream()) {
                return new ObjectMapper().readTree(alerts);
            }
        }
    }

    private Path site(String name, String broker) throws IOException {
        return MoistureSite.of(folder.resolve(name), PROBES, broker);
    }

    private static JsonNode tree(String json) throws IOException {
        return new ObjectMapper().readTree(json);
    }
}
