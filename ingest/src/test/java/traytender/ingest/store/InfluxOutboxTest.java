package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.reading.Marks;
import traytender.config.site.StoreSettings;
import traytender.config.site.StoreSettings.Influx;
import traytender.testing.Influxd;
import traytender.testing.NeedsServer;

@NeedsServer("influxd")
class InfluxOutboxTest {
    private static final long NOON = 1_773_489_600_000L;

    @TempDir
    Path folder;

    private Influxd server;
    private SiteFolder site;
    private SiteStore store;
    private InfluxOutbox outbox;

    @BeforeEach
    void start() throws IOException {
        server = Influxd.start(folder.resolve("influx"));
        Files.writeString(folder.resolve("influx.password"), server.password() + "\n");
        site = siteFolder(server.url(), server.user());
    }

    @AfterEach
    void stop() {
        closeOutbox();
        if (store != null) {
            store.close();
        }
        server.close();
    }

    @Test
    void readings_arrive_withValueRawAndMarks_inADatabaseThatWasMissing() {
        openAndSend();
        store.readings()
                .append(List.of(new RawReading("a", NOON, 20.25, Marks.CLOCK), new RawReading("odd, =id", NOON, 1, 0)));
        awaitSent(2);

        assertThat(server.query("alder", "SELECT probe, value, raw, marks FROM reading WHERE probe = 'a'"))
                .containsExactly(List.of(NOON, "a", 40.5, 20.25, 8));
        assertThat(server.query("alder", "SELECT raw FROM reading WHERE probe = 'odd, =id'"))
                .containsExactly(List.of(NOON, 1));
        assertThat(outbox.state()).isEqualTo(new OutboxState(0, 2, 0, null, null));
    }

    @Test
    void readings_waitWhileTheServerIsAway_andDrainInOrderWhenItIsBack() throws IOException {
        openAndSend();
        store.readings().append(readings("a", 0, 100));
        awaitSent(100);
        server.stop();
        store.readings().append(readings("a", 100, 12_000));
        await().until(() -> outbox.state().trouble() != null);
        assertThat(outbox.state().pending()).isEqualTo(12_000);

        server.startAgain();

        await().atMost(Duration.ofSeconds(60)).until(() -> outbox.state().pending() == 0);
        assertThat(server.query("alder", "SELECT count(value) FROM reading")).containsExactly(List.of(0L, 12_100));
        assertThat(outbox.state().trouble()).isNull();
        assertThat(outbox.state().setAside()).isZero();
    }

    @Test
    void readingsThatWait_surviveARestartOfTheProgram() throws IOException {
        server.stop();
        openAndSend();
        store.readings().append(readings("a", 0, 50));
        closeOutbox();
        store.close();
        server.startAgain();

        openAndSend();

        await().atMost(Duration.ofSeconds(60)).until(() -> outbox.state().pending() == 0);
        assertThat(server.query("alder", "SELECT count(value) FROM reading")).containsExactly(List.of(0L, 50));
    }

    @Test
    void readingsFromBeforeTheDatabaseWasNamed_areSentToo() {
        try (var before = SqliteReadingStore.open(site.data(), Bench.DOUBLED)) {
            before.append(readings("a", 0, 6_000));
            before.append(readings("gone", 0, 10));
        }
        openAndSend();
        store.readings().append(readings("a", 6_000, 10));

        awaitSent(6_020);

        assertThat(outbox.state().pending()).isZero();
        assertThat(server.query("alder", "SELECT count(raw) FROM reading")).containsExactly(List.of(0L, 6_020));
        // The site file no longer says what its raw values mean.
        assertThat(server.query("alder", "SELECT count(value) FROM reading")).containsExactly(List.of(0L, 6_010));
    }

    @Test
    void readingThatIsRefusedForGood_isSetAside_andHoldsNothingUp() {
        // Another program has written text where the raw value belongs: InfluxDB then refuses numbers in that shard.
        server.query(null, "CREATE DATABASE alder");
        server.write("alder", "reading,probe=a raw=\"text\" " + (NOON + 7_000));
        openAndSend();
        var farAway = NOON - Duration.ofDays(30).toMillis();
        var ordinary = IntStream.range(0, 20)
                .mapToObj(i -> new RawReading("a", farAway + i * 1000L, i, 0))
                .toList();
        store.readings()
                .append(Stream.concat(Stream.of(new RawReading("a", NOON + 8_000, 1, 0)), ordinary.stream())
                        .toList());

        awaitSent(20);

        assertThat(outbox.state().setAside()).isEqualTo(1);
        assertThat(outbox.state().lastRefusal()).contains("field type conflict");
        assertThat(outbox.state().pending()).isZero();
        assertThat(store.readings().count()).isEqualTo(21);
    }

    @Test
    void requestTooLarge_isSplit_andHoldsNothingUp() throws IOException {
        server.close();
        server = Influxd.start(folder.resolve("small"), "max-body-size = 2000");
        site = siteFolder(server.url(), server.user());
        openAndSend();
        store.readings().append(readings("a", 0, 3_000));

        awaitSent(3_000);

        assertThat(outbox.state()).isEqualTo(new OutboxState(0, 3_000, 0, null, null));
        assertThat(server.query("alder", "SELECT count(value) FROM reading")).containsExactly(List.of(0L, 3_000));
    }

    @Test
    void wrongPassword_isTrouble_andLosesNothing() throws IOException {
        Files.writeString(folder.resolve("influx.password"), "wrong");
        openAndSend();
        store.readings().append(readings("a", 0, 5));

        await().until(() -> outbox.state().trouble() != null);

        assertThat(outbox.state().trouble()).contains("authorization failed");
        assertThat(outbox.state().pending()).isEqualTo(5);
        assertThat(outbox.state().setAside()).isZero();
    }

    @ParameterizedTest
    @ValueSource(strings = {"http://127.0.0.1:1", "http://no-such-host.invalid:8086"})
    void serverThatIsNotThere_holdsUpNoAppend_andClosesAtOnce(String url) {
        site = siteFolder(url, null);
        openAndSend();

        assertThat(store.readings().append(readings("a", 0, 5)).stored()).isEqualTo(5);
        await().until(() -> outbox.state().trouble() != null);
        assertThat(outbox.state().pending()).isEqualTo(5);
    }

    private void openAndSend() {
        store = SiteStore.open(site, Bench.DOUBLED, Clock.systemUTC());
        outbox = store.influxOutbox(site, Bench.DOUBLED).orElseThrow();
        outbox.start();
    }

    private void closeOutbox() {
        if (outbox != null) {
            outbox.close();
        }
    }

    private void awaitSent(long count) {
        await().atMost(Duration.ofSeconds(60)).until(() -> outbox.state().sent() >= count);
    }

    private static List<RawReading> readings(String probe, int from, int count) {
        var readings = new ArrayList<RawReading>();
        for (int i = from; i < from + count; i++) {
            readings.add(new RawReading(probe, NOON + i * 1000L, i, 0));
        }
        return readings;
    }

    private SiteFolder siteFolder(String url, String user) {
        var plain = Bench.site("a", "odd, =id");
        var influx = new Influx(url, "alder", user, user == null ? null : "influx.password", null);
        return new SiteFolder(folder, Bench.withStore(plain, new StoreSettings(null, influx)), new Crops(Map.of()));
    }
}
