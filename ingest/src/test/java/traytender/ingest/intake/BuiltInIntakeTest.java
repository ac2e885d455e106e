package traytender.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteFolder;
import traytender.config.reading.Reading;
import traytender.config.site.Broker;
import traytender.ingest.broker.BrokerException;
import traytender.ingest.broker.Credentials;
import traytender.ingest.calibrate.Calibrator;
import traytender.ingest.mqtt.Sensor;
import traytender.ingest.store.ReadingStore;
import traytender.ingest.store.SqliteReadingStore;
import traytender.testing.OwnCertificate;

/** Messages through the built-in broker into a real SQLite file. */
class BuiltInIntakeTest {
    private static final Instant NOW = Instant.parse("2026-03-14T05:41:00Z");
    private static final Clock CLOCK = Clock.fixed(NOW, ZoneOffset.UTC);
    private static final Duration LONG = Duration.ofSeconds(30);
    private static final Broker LOOPBACK = new Broker.BuiltIn("127.0.0.1", 0);
    private static final Broker NETWORK = new Broker.BuiltIn("0.0.0.0", 0);

    @TempDir
    Path site;

    @BeforeEach
    void makeFolder() throws Exception {
        Files.createDirectories(site.resolve("data"));
    }

    private SqliteReadingStore openStore() {
        return SqliteReadingStore.open(site.resolve("data"), Calibrator::read);
    }

    private static Intake started(SiteFolder folder, ReadingStore store) {
        var intake = Intake.of(folder, store, CLOCK, readings -> {});
        intake.start();
        return intake;
    }

    private static int openPort(Intake intake) {
        await().atMost(LONG)
                .untilAsserted(() -> assertThat(intake.brokerPort())
                        .as(() -> intake.state().toString())
                        .isPositive());
        return intake.brokerPort();
    }

    private static void awaitReceived(Intake intake, long count) {
        await().atMost(LONG).until(() -> intake.counts().received() >= count);
    }

    @Test
    void messages_goToDisk_oddTopicsToo_andTheCountsBalance() throws Exception {
        try (var store = openStore();
                var intake = started(AlderLane.at(site, LOOPBACK), store);
                var sensor = Sensor.at(openPort(intake))) {
            sensor.publish("alder/T01/centre", "{\"soil\":0.5,\"temp\":21.5,\"at\":\"2026-03-14T05:40:00Z\"}");
            sensor.publish("alder/T01/centre", "{\"soil\":0.5,\"temp\":21.5,\"at\":\"2026-03-14T05:40:00Z\"}");
            sensor.publish("alder/Gewächshaus 2/ü.*?", "19");
            sensor.publish("alder/T01/edge", "NaN");
            sensor.publish("alder/lost.and/found", "hello");
            sensor.publish("alder/T01/edge", "9".repeat(1_000_000));
            sensor.publish("alder/T01/edge", "0.7");
            awaitReceived(intake, 8);

            assertThat(intake.counts()).isEqualTo(new Counts(8, 4, 2, 2, 1, Map.of("not-finite", 1L, "too-large", 1L)));
            assertThat(intake.unassigned())
                    .singleElement()
                    .matches(unassigned -> unassigned.topic().equals("alder/lost.and/found"));
            assertThat(store.count()).isEqualTo(4);
        }
    }

    /** A program that took twenty readings from a sensor, could not store them, and has ended; gives its store, still full. */
    private TroubledStore leaveTwentyWaiting(ReadingStore store) throws Exception {
        var troubled = new TroubledStore(store);
        troubled.fill(true);
        try (var intake = started(AlderLane.at(site, LOOPBACK), troubled);
                var sensor = Sensor.at(openPort(intake))) {
            for (int i = 0; i < 20; i++) {
                sensor.publish("alder/T01/centre", "{\"soil\":0.5,\"at\":" + (1_773_400_000 + i) + "}");
            }
            await().atMost(LONG).until(() -> troubled.refused() > 0);
        }
        return troubled;
    }

    /** What a sensor was told is taken is on the broker's disk, also when the readings' disk takes nothing. */
    @Test
    void acknowledgedMessages_outliveTheProgram_whenTheStoreTookNothing() throws Exception {
        try (var store = openStore()) {
            leaveTwentyWaiting(store);
            assertThat(store.count()).isZero();

            try (var again = started(AlderLane.at(site, LOOPBACK), store)) {
                awaitReceived(again, 20);
                assertThat(store.readings(AlderLane.SOIL, Instant.EPOCH, NOW)).hasSize(20);
            }
        }
    }

    @Test
    void sensorsAreLetIn_whileWhatWaitedAtTheBrokerIsNotTakenYet() throws Exception {
        try (var store = openStore()) {
            TroubledStore troubled = leaveTwentyWaiting(store);

            try (var again = started(AlderLane.at(site, LOOPBACK), troubled);
                    var sensor = Sensor.at(openPort(again))) {
                sensor.publish("alder/T01/centre", "{\"soil\":0.5,\"at\":1773400100}");
                assertThat(store.count()).isZero();
                troubled.fill(false);
                awaitReceived(again, 21);
                assertThat(store.readings(AlderLane.SOIL, Instant.EPOCH, NOW)).hasSize(21);
            }
        }
    }

    @Test
    void statusAndAlerts_areHeardOnTheBench() throws Exception {
        try (var store = openStore();
                var intake = started(AlderLane.at(site, LOOPBACK), store);
                var lamp = Sensor.at(openPort(intake))) {
            intake.publish("traytender/call", "now".getBytes(StandardCharsets.UTF_8), true);

            var heard = lamp.hear("traytender/#");

            await().atMost(LONG).until(() -> heard.size() >= 2);
            assertThat(heard).containsExactlyInAnyOrder("traytender/status watching", "traytender/call now");
        }
    }

    @Test
    void takenPort_isSaid_withARemedy() throws Exception {
        try (var store = openStore();
                var taken = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
            var folder = AlderLane.at(site, new Broker.BuiltIn("127.0.0.1", taken.getLocalPort()));

            assertThatThrownBy(() -> Intake.of(folder, store, CLOCK, readings -> {}))
                    .isInstanceOf(BrokerException.class)
                    .hasMessageContaining("127.0.0.1:" + taken.getLocalPort())
                    .hasMessageContaining("Maybe");
        }
    }

    @Test
    void openToTheNetwork_withoutUsers_isRefused() {
        try (var store = openStore()) {
            assertThatThrownBy(() -> Intake.of(AlderLane.at(site, NETWORK), store, CLOCK, readings -> {}))
                    .isInstanceOf(BrokerException.class)
                    .hasMessageContaining("passwords");
        }
    }

    @Test
    void openToTheNetwork_letsInByPassword_andToTheUsersTopicsOnly() throws Exception {
        var passwords = Files.writeString(
                site.resolve("passwords"), "# sensors\nT01 Kx7-bench alder/T01/#\nlamp Bright-bench lamp/state\n");
        try (var store = openStore();
                var intake = started(AlderLane.at(site, NETWORK), store)) {
            int port = openPort(intake);
            assertThatThrownBy(() -> Sensor.at(port)).isInstanceOf(MqttException.class);
            assertThatThrownBy(() -> Sensor.at(port, "T01", "guess")).isInstanceOf(MqttException.class);
            assertThatThrownBy(() -> Sensor.at(port, "nobody", "Kx7-bench")).isInstanceOf(MqttException.class);

            try (var other = Sensor.at(port, "T01", "Kx7-bench")) {
                assertThatThrownBy(() -> other.publish("alder/propagation", "[{\"n\":\"alder:air:temp\",\"v\":99}]"))
                        .isInstanceOf(MqttException.class);
            }
            try (var sensor = Sensor.at(port, "T01", "Kx7-bench");
                    var lamp = Sensor.at(port, "lamp", "Bright-bench")) {
                var heard = lamp.hear("traytender/status");
                sensor.publish("alder/T01/edge", "0.5");
                awaitReceived(intake, 1);
                await().atMost(LONG).until(() -> heard.contains("traytender/status watching"));
            }

            assertThat(store.latest(AlderLane.EDGE)).map(Reading::raw).contains(0.5);
            assertThat(store.latest(AlderLane.AIR)).isEmpty();
            assertThat(Files.readString(passwords))
                    .startsWith("# sensors\nT01 $2a$10$")
                    .doesNotContain("Kx7-bench", "Bright-bench")
                    .contains(" alder/T01/#\n");
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(passwords)))
                    .isEqualTo("rw-------");
        }
        try (var store = openStore();
                var intake = started(AlderLane.at(site, NETWORK), store);
                var sensor = Sensor.at(openPort(intake), "T01", "Kx7-bench")) {
            sensor.publish("alder/T01/edge", "0.6");
            awaitReceived(intake, 1);
        }
    }

    @Test
    void sensorsByTls_areLetInWithTheirGeneratedPassword_andNobodyInClear() throws Exception {
        var certificate = OwnCertificate.make(site.resolve("tls"), "ip:127.0.0.1");
        Files.writeString(site.resolve("key.password"), "changeit\n");
        var password = Credentials.give(site.resolve("passwords"), "T01", List.of("alder/T01/#"));
        var byTls = new Broker.BuiltIn("0.0.0.0", 0, "tls/server.p12", "key.password");
        try (var store = openStore();
                var intake = started(AlderLane.at(site, byTls), store)) {
            int port = openPort(intake);
            assertThatThrownBy(() -> Sensor.at(port, "T01", password)).isInstanceOf(MqttException.class);

            try (var sensor = Sensor.byTls(port, certificate.certificate(), "T01", password)) {
                sensor.publish("alder/T01/edge", "0.5");
                awaitReceived(intake, 1);
            }
            assertThat(store.latest(AlderLane.EDGE)).map(Reading::raw).contains(0.5);
        }
        assertThat(Files.readString(site.resolve("passwords")))
                .startsWith("T01 $2a$10$")
                .doesNotContain(password);

        Files.writeString(site.resolve("key.password"), "wrong");
        try (var store = openStore()) {
            assertThatThrownBy(() -> Intake.of(AlderLane.at(site, byTls), store, CLOCK, readings -> {}))
                    .isInstanceOf(BrokerException.class)
                    .hasMessageContaining("server.p12")
                    .hasMessageNotContaining("wrong");
        }
    }

    @Test
    void flood_withoutAcknowledgements_fillsNoMemory_andTheRestGoesOn() throws Exception {
        try (var store = openStore();
                var intake = started(AlderLane.at(site, LOOPBACK), store);
                var sensor = Sensor.at(openPort(intake))) {
            var junk = "x".repeat(60_000).getBytes(StandardCharsets.UTF_8);
            for (int i = 0; i < 1_500; i++) {
                sensor.shout("alder/made-up/" + i, junk);
            }
            sensor.publish("alder/T01/edge", "0.7");
            awaitReceived(intake, 1);

            assertThat(intake.counts().stored()).isEqualTo(1);
            assertThat(intake.unassigned())
                    .hasSizeLessThanOrEqualTo(1_001)
                    .allMatch(topic -> topic.payload().length() <= 83);
        }
    }

    @Test
    void packetBeyondAllBounds_endsItsConnection_andNobodyElses() throws Exception {
        try (var store = openStore();
                var intake = started(AlderLane.at(site, LOOPBACK), store);
                var sensor = Sensor.at(openPort(intake));
                var mad = Sensor.at(intake.brokerPort())) {
            assertThatThrownBy(() -> mad.publish("alder/T01/edge", "9".repeat(3 << 20)))
                    .isInstanceOf(MqttException.class);

            sensor.publish("alder/T01/edge", "0.7");
            awaitReceived(intake, 1);

            assertThat(intake.counts().stored()).isEqualTo(1);
        }
    }
}
