package traytender.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.entry;
import static org.awaitility.Awaitility.await;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteFolder;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Broker;
import traytender.ingest.calibrate.Calibrator;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;
import traytender.ingest.store.SqliteReadingStore;
import traytender.testing.Mosquitto;
import traytender.testing.NeedsServer;
import traytender.testing.OwnCertificate;

/** Messages through a real mosquitto into a real SQLite file; {@code mosquitto_pub} is the sensor. */
@NeedsServer({"mosquitto", "mosquitto_pub", "mosquitto_sub"})
class MosquittoIntakeTest {
    private static final Instant NOW = Instant.parse("2026-03-14T05:41:00Z");
    private static final Clock CLOCK = Clock.fixed(NOW, ZoneOffset.UTC);
    private static final Duration LONG = Duration.ofSeconds(30);

    @TempDir
    Path temporary;

    private final List<Reading> heard = new CopyOnWriteArrayList<>();
    private Path site;

    @BeforeEach
    void makeFolders() throws Exception {
        site = Files.createDirectories(temporary.resolve("site"));
    }

    private SqliteReadingStore openStore() throws Exception {
        return SqliteReadingStore.open(Files.createDirectories(site.resolve("data")), Calibrator::read);
    }

    private Intake started(SiteFolder folder, ReadingStore store) {
        var intake = Intake.of(folder, store, CLOCK, heard::addAll);
        intake.start();
        return intake;
    }

    private static void awaitSubscribed(Intake intake) {
        await().atMost(LONG).until(() -> intake.state().isSubscribed());
    }

    private static void awaitReceived(Intake intake, long count) {
        await().atMost(LONG).until(() -> intake.counts().received() >= count);
    }

    @Test
    void messages_goToDisk_andOn_andTheCountsBalance() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore();
                var intake = started(AlderLane.at(site, broker.uri()), store)) {
            awaitSubscribed(intake);
            broker.publish("alder/T01/centre", "{\"soil\":0.5,\"temp\":21.5,\"at\":\"2026-03-14T05:40:00Z\"}");
            broker.publish("alder/T01/centre", "{\"soil\":0.5,\"temp\":21.5,\"at\":\"2026-03-14T05:40:00Z\"}");
            broker.publish("alder/propagation", "[{\"bn\":\"alder:air:\",\"n\":\"temp\",\"u\":\"Cel\",\"v\":20.1}]");
            broker.publish("alder/Gewächshaus 2/ü.*?", "19");
            broker.publish("alder/mat-1/report", "heat");
            broker.publish("alder/T01/edge", "123456");
            awaitReceived(intake, 8);

            assertThat(intake.counts()).isEqualTo(new Counts(8, 6, 2, 0, 0, Map.of()));
            assertThat(store.count()).isEqualTo(6);
            assertThat(heard)
                    .contains(
                            new Reading("centre-moisture", NOW.toEpochMilli() - 60_000, 0.5, 0.5, Marks.NONE),
                            new Reading("mat-1-power", NOW.toEpochMilli(), 1, 1, Marks.NONE),
                            new Reading("edge", NOW.toEpochMilli(), 123_456, 123_456, Marks.RANGE))
                    .hasSize(6);
        }
    }

    @Test
    void badMessages_areRefusedByCauseAndTopic_andHoldNothingUp() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore();
                var intake = started(AlderLane.at(site, broker.uri()), store)) {
            awaitSubscribed(intake);
            for (var payload : List.of("NaN", "-Infinity", "1e400", "wet", "", "9".repeat(1_000_000))) {
                broker.publish("alder/T01/edge", payload);
            }
            broker.publish("alder/T01/edge", new byte[] {(byte) 0xff, (byte) 0xfe, 0});
            broker.publish("alder/T01/centre", "{\"soil\": ");
            broker.publish("alder/T01/centre", "{\"other\": 1}");
            broker.publish("alder/T01/centre", "{\"soil\":0.5,\"at\":\"2099-01-01T00:00:00Z\"}");
            broker.publish("alder/propagation", "{}");
            broker.publish("alder/lost/ü ?", "hello");
            broker.publish("alder/T01/edge", "0.7");
            awaitReceived(intake, 14);

            var counts = intake.counts();
            assertThat(counts.received()).isEqualTo(counts.stored() + counts.repeated() + counts.refused());
            assertThat(counts.stored()).isEqualTo(1);
            assertThat(counts.refusals())
                    .containsOnly(
                            entry("not-finite", 3L),
                            entry("not-a-number", 1L),
                            entry("empty", 1L),
                            entry("too-large", 1L),
                            entry("not-utf8", 1L),
                            entry("not-json", 2L),
                            entry("no-field", 2L),
                            entry("future", 1L),
                            entry("not-senml", 1L));
            assertThat(intake.refusals()).anySatisfy(refusal -> {
                assertThat(refusal.topic()).isEqualTo("alder/T01/edge");
                assertThat(refusal.cause()).isEqualTo("too-large");
                assertThat(refusal.firstBytes()).isEqualTo("9".repeat(80) + "...");
            });
            assertThat(intake.unassigned()).singleElement().satisfies(unassigned -> {
                assertThat(unassigned.topic()).isEqualTo("alder/lost/ü ?");
                assertThat(unassigned.payload()).isEqualTo("hello");
            });
        }
    }

    @Test
    void burstOnOneTopic_losesNoValue() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore();
                var intake = started(AlderLane.at(site, broker.uri()), store)) {
            awaitSubscribed(intake);
            Mosquitto.send(
                    broker.port(),
                    null,
                    null,
                    "alder/T01/edge",
                    "0.5\n".repeat(1_000).getBytes(StandardCharsets.UTF_8),
                    "-l");
            awaitReceived(intake, 1_000);

            assertThat(intake.counts()).isEqualTo(new Counts(1_000, 1_000, 0, 0, 0, Map.of()));
        }
    }

    /**
     * The broker is killed and started again between two runs of messages; every message it acknowledged must be on disk. But for the
     * very last: mosquitto acknowledges first and then saves, within one turn of its loop, as its log shows ("Sending PUBACK", "Saving
     * in-memory database"); a message that nobody misses is the last here.
     */
    @Test
    void brokerKilledInTheMiddle_losesNothingItAcknowledged() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore();
                var intake = started(AlderLane.at(site, broker.uri()), store)) {
            awaitSubscribed(intake);
            for (int i = 0; i < 40; i++) {
                broker.publish("alder/T01/centre", "{\"soil\":0.5,\"at\":" + (1_773_400_000 + i) + "}");
            }
            broker.publish("alder/nobodys", "the last one");
            broker.kill();
            broker.startAgain();
            for (int i = 40; i < 80; i++) {
                broker.publish("alder/T01/centre", "{\"soil\":0.5,\"at\":" + (1_773_400_000 + i) + "}");
            }
            var sent = LongStream.range(0, 80)
                    .mapToObj(i -> 1000 * (1_773_400_000 + i))
                    .toList();

            await().atMost(LONG)
                    .untilAsserted(() -> assertThat(store.readings(AlderLane.SOIL, Instant.EPOCH, NOW))
                            .extracting(Reading::timeMs)
                            .isEqualTo(sent));
        }
    }

    /** Acknowledging comes after storing: what a full disk did not take is still with the broker when the program is gone. */
    @Test
    void fullDisk_acknowledgesNothing_soTheMessageComesAgain() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore()) {
            var troubled = new TroubledStore(store);
            troubled.fill(true);
            try (var intake = started(AlderLane.at(site, broker.uri()), troubled)) {
                awaitSubscribed(intake);
                broker.publish("alder/T01/centre", "{\"soil\":0.5,\"at\":1773400000}");
                await().atMost(LONG).until(() -> troubled.refused() > 1);
                assertThat(intake.state().troubles()).anyMatch(trouble -> trouble.contains("the disk is full"));
                assertThat(intake.counts().received()).isZero();
            }
            assertThat(store.count()).isZero();

            try (var again = started(AlderLane.at(site, broker.uri()), store)) {
                awaitReceived(again, 1);
                assertThat(store.latest(AlderLane.SOIL)).map(Reading::timeMs).contains(1_773_400_000_000L);
            }
        }
    }

    @Test
    void fullDisk_thatHasRoomAgain_isWrittenTo() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore()) {
            var troubled = new TroubledStore(store);
            troubled.fill(true);
            try (var intake = started(AlderLane.at(site, broker.uri()), troubled)) {
                awaitSubscribed(intake);
                broker.publish("alder/T01/edge", "0.5");
                await().atMost(LONG).until(() -> troubled.refused() > 0);
                troubled.fill(false);
                awaitReceived(intake, 1);

                assertThat(intake.counts()).isEqualTo(new Counts(1, 1, 0, 0, 0, Map.of()));
                assertThat(intake.state().troubles()).isEmpty();
            }
        }
    }

    @Test
    void messagesSentWhileAway_comeWhenBack() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore()) {
            try (var intake = started(AlderLane.at(site, broker.uri()), store)) {
                awaitSubscribed(intake);
            }
            broker.publish("alder/T01/edge", "0.5");
            broker.publish("alder/T01/edge", "0.6");
            try (var intake = started(AlderLane.at(site, broker.uri()), store)) {
                awaitReceived(intake, 2);
                assertThat(intake.counts().stored()).isEqualTo(2);
            }
        }
    }

    @Test
    void wrongPassword_isSaid_andTheRightOneLetsIn() throws Exception {
        Files.writeString(site.resolve("broker.password"), "wrong\n");
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"), "alder", "bench", null);
                var store = openStore()) {
            var folder = AlderLane.at(site, new Broker.Outside(broker.uri(), "alder", "broker.password", null));
            try (var intake = started(folder, store)) {
                await().atMost(LONG).until(() -> !intake.state().troubles().isEmpty());
                assertThat(intake.state().troubles().get(0))
                        .contains(broker.uri())
                        .containsIgnoringCase("not authorized");
                assertThat(intake.state().isSubscribed()).isFalse();
            }
            Files.writeString(site.resolve("broker.password"), "bench\n");
            try (var intake = started(folder, store)) {
                awaitSubscribed(intake);
                broker.publish("alder/T01/edge", "0.5");
                awaitReceived(intake, 1);
            }
        }
    }

    @Test
    void status_isWatching_thenGone_andAlertsStayWithTheBroker_ownTopicsAreNotUnassigned() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore()) {
            try (var intake = started(AlderLane.at(site, broker.uri()), store)) {
                awaitSubscribed(intake);
                intake.publish("traytender/alerts/T01/dry/centre", "{}".getBytes(StandardCharsets.UTF_8), true);
                intake.publish("alder/mat-1/relay", "rest".getBytes(StandardCharsets.UTF_8), false);
                broker.publish("alder/T01/edge", "0.5");
                awaitReceived(intake, 1);

                assertThat(broker.hear("traytender/#", "-W", "1"))
                        .containsExactlyInAnyOrder("traytender/status watching", "traytender/alerts/T01/dry/centre {}");
                assertThat(intake.unassigned()).isEmpty();
                assertThat(intake.counts().unassigned()).isZero();
            }
            assertThat(broker.hear("traytender/status", "-W", "1")).containsExactly("traytender/status gone");
        }
    }

    /** A probe that died long ago must not look alive because the broker kept its last word. */
    @Test
    void keptMessage_withoutATimeOfItsOwn_isNoReading() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore()) {
            broker.publish("alder/T01/edge", "0.5".getBytes(StandardCharsets.UTF_8), "-r");
            broker.publish(
                    "alder/T01/centre", "{\"soil\":0.5,\"at\":1773400000}".getBytes(StandardCharsets.UTF_8), "-r");
            try (var intake = started(AlderLane.at(site, broker.uri()), store)) {
                awaitReceived(intake, 2);

                assertThat(intake.counts()).isEqualTo(new Counts(2, 1, 0, 1, 0, Map.of("stale", 1L)));
            }
        }
    }

    @Test
    void ownClockBeforeTheNewestReading_keepsTheFuture_andMarksIt() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore()) {
            store.append(
                    List.of(new RawReading("edge", NOW.plus(Duration.ofDays(1)).toEpochMilli(), 0.5, Marks.NONE)));
            try (var intake = started(AlderLane.at(site, broker.uri()), store)) {
                awaitSubscribed(intake);
                broker.publish("alder/T01/centre", "{\"soil\":0.5,\"at\":\"2026-03-16T00:00:00Z\"}");
                awaitReceived(intake, 1);

                assertThat(intake.isClockWrong()).isTrue();
                assertThat(heard).singleElement().matches(reading -> reading.has(Marks.CLOCK));
            }
        }
    }

    @Test
    void brokerThatShowsOnlyTheProbesTopics_isListenedTo() throws Exception {
        var rules = "user alder\ntopic readwrite alder/#\ntopic readwrite traytender/#\n";
        Files.writeString(site.resolve("broker.password"), "bench\n");
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"), "alder", "bench", rules);
                var store = openStore();
                var intake = started(
                        AlderLane.at(site, new Broker.Outside(broker.uri(), "alder", "broker.password", null)),
                        store)) {
            awaitSubscribed(intake);
            broker.publish("alder/T01/edge", "0.5");
            awaitReceived(intake, 1);

            assertThat(intake.counts().stored()).isEqualTo(1);
        }
    }

    @Test
    void tls_isTrustedByTheGrowersOwnCertificate_andNotWithoutIt() throws Exception {
        var certificate = OwnCertificate.make(temporary.resolve("tls"), "ip:127.0.0.1");
        Files.copy(certificate.certificate(), site.resolve("broker.pem"));
        try (var broker = Mosquitto.startWithTls(temporary.resolve("mosquitto"), certificate);
                var store = openStore()) {
            var uri = "ssl://127.0.0.1:" + broker.port();
            try (var intake = started(AlderLane.at(site, new Broker.Outside(uri, null, null, null)), store)) {
                await().atMost(LONG).until(() -> !intake.state().troubles().isEmpty());
                assertThat(intake.state().troubles().get(0)).contains(uri).contains("certification path");
            }
            try (var intake = started(AlderLane.at(site, new Broker.Outside(uri, null, null, "broker.pem")), store)) {
                awaitSubscribed(intake);
                assertThat(intake.state().troubles()).isEmpty();
            }
        }
    }

    /** The host's name is checked: a trusted certificate for another host lets nobody in between. */
    @Test
    void tls_ofAnotherHost_isNotTrusted() throws Exception {
        var certificate = OwnCertificate.make(temporary.resolve("tls"), "dns:bench.example");
        Files.copy(certificate.certificate(), site.resolve("broker.pem"));
        try (var broker = Mosquitto.startWithTls(temporary.resolve("mosquitto"), certificate);
                var store = openStore();
                var intake = started(
                        AlderLane.at(
                                site, new Broker.Outside("ssl://127.0.0.1:" + broker.port(), null, null, "broker.pem")),
                        store)) {
            await().atMost(LONG).until(() -> !intake.state().troubles().isEmpty());

            assertThat(intake.state().isSubscribed()).isFalse();
        }
    }

    @Test
    void listenerThatFails_isNoReasonToStop() throws Exception {
        try (var broker = Mosquitto.start(temporary.resolve("mosquitto"));
                var store = openStore();
                var intake = Intake.of(AlderLane.at(site, broker.uri()), store, CLOCK, readings -> {
                    throw new IllegalStateException("cannot look");
                })) {
            intake.start();
            awaitSubscribed(intake);
            broker.publish("alder/T01/edge", "0.5");
            broker.publish("alder/T01/edge", "0.6");
            awaitReceived(intake, 2);

            assertThat(store.count()).isEqualTo(2);
        }
    }
}
