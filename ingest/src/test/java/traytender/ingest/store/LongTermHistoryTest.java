package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.StoreSettings;
import traytender.config.site.StoreSettings.Influx;
import traytender.ingest.store.InfluxOutbox.Step;
import traytender.testing.Influxd;
import traytender.testing.NeedsServer;

/** What the site's own store keeps no longer is read back from a real InfluxDB, in one order with what it still has. */
@NeedsServer("influxd")
class LongTermHistoryTest {
    private static final Instant START = Instant.parse("2026-03-01T00:00:00Z");
    private static final Duration KEEP = Duration.ofHours(12);
    private static final Instant NOW = START.plus(Duration.ofHours(48));

    @TempDir
    Path folder;

    private final List<RawReading> all = new ArrayList<>();
    private Influxd server;
    private SiteFolder site;
    private SiteStore store;
    private InfluxOutbox outbox;

    @BeforeEach
    void start() throws IOException {
        server = Influxd.start(folder.resolve("influx"));
        Files.writeString(folder.resolve("influx.password"), server.password());
        var influx = new Influx(server.url(), "alder", server.user(), "influx.password", null);
        site = new SiteFolder(
                folder, Bench.withStore(Bench.site("a", "b"), new StoreSettings(KEEP, influx)), new Crops(Map.of()));
        open();
    }

    private void open() {
        store = SiteStore.open(site, Bench.DOUBLED, Clock.systemUTC());
        outbox = store.influxOutbox(site, Bench.DOUBLED).orElseThrow();
    }

    @AfterEach
    void stop() {
        outbox.close();
        store.close();
        server.close();
    }

    @Test
    void whatIsNoLongerHere_isReadBack_inOneOrderWithWhatIs() {
        twoDays();
        drain();
        assertThat(store.removeOlderThan(KEEP, NOW)).isPositive();
        // A probe that had kept a reading for itself: it lands here, before the border.
        append(new RawReading("a", at(61).toEpochMilli() + 500, 4.5, 0));

        assertThat(store.readings().count()).isLessThan(all.size());
        assertThat(scan(store)).isEqualTo(expected());
        assertThat(store.history().readings(Bench.probe("a"), at(60), at(180)))
                .isEqualTo(expected().stream()
                        .filter(reading -> reading.probe().equals("a"))
                        .filter(reading ->
                                reading.timeMs() >= at(60).toEpochMilli() && reading.timeMs() < at(180).toEpochMilli())
                        .toList());
        assertThat(store.history().extents())
                .containsExactly(new Extent("a", at(0), at(48 * 60 - 1)), new Extent("b", at(0), at(24 * 60 - 1)));
        // The second probe died a day ago: its newest reading is no longer here.
        assertThat(store.history().latest(Bench.probe("b")))
                .map(Reading::timeMs)
                .contains(at(24 * 60 - 1).toEpochMilli());

        try (var aside = SiteStore.openToRead(site, Bench.DOUBLED)) {
            assertThat(scan(aside)).isEqualTo(expected());
        }
    }

    @Test
    void whatWaitsToBeSent_staysHere() {
        server.stop();
        twoDays();

        assertThat(store.removeOlderThan(KEEP, NOW)).isZero();
        assertThat(scan(store)).isEqualTo(expected());
    }

    @Test
    void serverAway_isSaid_andHoldsUpNothingNewer() {
        twoDays();
        drain();
        store.removeOlderThan(KEEP, NOW);
        server.stop();

        var border = NOW.minus(KEEP);
        assertThat(store.history().readings(Bench.probe("a"), border, NOW)).hasSize(12 * 60);
        assertThatThrownBy(() -> store.history().readings(Bench.probe("a"), START, NOW))
                .isInstanceOf(StoreException.class)
                .hasMessageContaining("InfluxDB");
    }

    @Test
    void damagedDatabase_thatWasSetAside_isFilledFromTheServer() throws IOException {
        twoDays();
        drain();
        outbox.close();
        store.close();
        Files.write(
                site.data().resolve("readings.db"),
                "not a database, by any means".repeat(200).getBytes());

        open();

        assertThat(store.setAside()).isNotEmpty();
        assertThat(store.readings().count()).isZero();
        assertThat(scan(store)).isEqualTo(expected());
    }

    /** A week of readings a minute, then an hour more while it drains: parcel by parcel the server has the oldest of them all. */
    @Test
    void outageOfAWeek_drainsInOrder_alsoWhatComesMeanwhile() throws IOException {
        server.stop();
        for (int minute = 0; minute < 7 * 24 * 60; minute++) {
            all.add(raw("a", minute, minute));
            all.add(raw("b", minute, -minute));
        }
        store.readings().append(all);
        assertThat(outbox.step()).isEqualTo(Step.TROUBLE);
        assertThat(outbox.state().pending()).isEqualTo(all.size());
        server.startAgain();

        var sent = 0L;
        while (outbox.step() == Step.SENT) {
            if (sent == 0) {
                var hour = IntStream.range(0, 60)
                        .mapToObj(minute -> raw("a", 7 * 24 * 60 + minute, minute))
                        .toList();
                all.addAll(hour);
                store.readings().append(hour);
            }
            sent = outbox.state().sent();
            assertThat(server.query("alder", "SELECT count(raw) FROM reading"))
                    .containsExactly(List.of(0L, (int) sent));
            assertThat(server.query("alder", "SELECT raw FROM reading ORDER BY time DESC LIMIT 1"))
                    .extracting(row -> row.get(0))
                    .containsExactly(all.get((int) sent - 1).timeMs());
        }

        assertThat(sent).isEqualTo(all.size());
        assertThat(outbox.state().setAside()).isZero();
    }

    /** A nursery split over two programs with one database between them. */
    @Test
    void twoSites_intoOneDatabase_readBackTheirOwn_alsoWhenOneStartsAgain() throws IOException {
        var south = folder.resolve("south");
        Files.createDirectories(south);
        Files.writeString(south.resolve("influx.password"), server.password());
        var other = new SiteFolder(
                south, Bench.withStore(Bench.site("c"), site.site().store()), new Crops(Map.of()));
        twoDays();
        try (var second = SiteStore.open(other, Bench.DOUBLED, Clock.systemUTC());
                var sending = second.influxOutbox(other, Bench.DOUBLED).orElseThrow()) {
            second.readings().append(List.of(raw("c", 0, 1), raw("c", 48 * 60, 2)));
            drain();
            outbox.close();
            store.close();
            assertThat(sending.step()).isEqualTo(Step.SENT);
            second.removeOlderThan(KEEP, NOW);
            open();
            store.removeOlderThan(KEEP, NOW);

            assertThat(scan(store)).isEqualTo(expected());
            assertThat(second.readings().count()).isEqualTo(1);
            assertThat(second.history().readings(Bench.probe("c"), Instant.MIN, Instant.MAX))
                    .extracting(Reading::raw)
                    .containsExactly(1.0, 2.0);
            assertThat(server.query("alder", "SELECT count(raw) FROM reading"))
                    .containsExactly(List.of(0L, all.size() + 2));
        }
    }

    /** A reading a minute of the first probe for two days, of the second for one; some with the clock's mark. */
    private void twoDays() {
        for (int minute = 0; minute < 48 * 60; minute++) {
            all.add(new RawReading("a", at(minute).toEpochMilli(), minute / 7.0, minute % 5 == 0 ? Marks.CLOCK : 0));
            if (minute < 24 * 60) {
                all.add(raw("b", minute, -minute));
            }
        }
        store.readings().append(all);
    }

    private void append(RawReading reading) {
        all.add(reading);
        store.readings().append(List.of(reading));
    }

    private void drain() {
        Stream.generate(outbox::step).takeWhile(Step.SENT::equals).forEach(step -> {});
        assertThat(outbox.state().pending()).isZero();
    }

    private List<Reading> scan(SiteStore from) {
        var found = new ArrayList<Reading>();
        from.history().source(site.site()).scan(Long.MIN_VALUE, Long.MAX_VALUE, found::add);
        return found;
    }

    private List<Reading> expected() {
        return all.stream()
                .sorted(Comparator.comparingLong(RawReading::timeMs).thenComparing(RawReading::probe))
                .map(raw -> Bench.DOUBLED.of(Bench.probe(raw.probe()), raw))
                .toList();
    }

    private static Instant at(int minute) {
        return START.plus(Duration.ofMinutes(minute));
    }

    private static RawReading raw(String probe, int minute, double value) {
        return new RawReading(probe, at(minute).toEpochMilli(), value, 0);
    }
}
