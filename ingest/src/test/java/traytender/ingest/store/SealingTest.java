package traytender.ingest.store;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.reading.Reading;
import traytender.testing.NeedsServer;

/** Days that are over are sealed, and nobody who reads can tell. */
class SealingTest {
    /** A day before the clocks go forward in Dublin (29 March 2026, 01:00 UTC, by the IANA time zone database). */
    private static final long FIRST = Instant.parse("2026-03-28T00:00:00Z").toEpochMilli();

    private static final int MINUTES = 5 * 1_440;

    @TempDir
    Path folder;

    @Test
    void daysOver_areSealed_andReadAsBefore() throws SQLException {
        var all = season();
        try (var store = open()) {
            store.readings().append(all);
            var before = scan(store);

            // The newest reading is from noon of 2 April by Dublin's clock; two days before is 31 March.
            assertThat(store.sealDays(SealedStores.DUBLIN, SealedStores.LATER)).isPositive();
            assertThat(number("SELECT count(*) FROM reading"))
                    .isEqualTo(all.stream()
                            .filter(raw -> raw.timeMs()
                                    >= Instant.parse("2026-03-30T23:00:00Z").toEpochMilli())
                            .count());
            assertThat(number("SELECT count(DISTINCT first_ms) FROM sealed WHERE probe = 1"))
                    .isEqualTo(3);
            assertThat(scan(store)).isEqualTo(before);
            assertThat(store.sealDays(SealedStores.DUBLIN, SealedStores.LATER)).isZero();
        }
        try (var again = open()) {
            assertThat(again.readings().append(all)).isEqualTo(new AppendResult(List.of(), all.size()));
        }
    }

    @Test
    void lateForASealedDay_isTakenOnce_andSealedTheNextTime() throws SQLException {
        try (var store = open()) {
            store.readings().append(season());
            store.sealDays(SealedStores.DUBLIN, SealedStores.LATER);
            var late = new RawReading("a", FIRST + 30_001, 7.25, 8);

            assertThat(store.readings().append(List.of(late, late)).stored()).isEqualTo(1);
            var before = scan(store);
            assertThat(before).contains(new Reading("a", FIRST + 30_001, 14.5, 7.25, 8));
            assertThat(store.sealDays(SealedStores.DUBLIN, SealedStores.LATER)).isEqualTo(1);
            assertThat(number("SELECT count(*) FROM reading WHERE time_ms = " + late.timeMs()))
                    .isZero();
            assertThat(scan(store)).isEqualTo(before);
            assertThat(store.readings().append(List.of(late)).repeated()).isEqualTo(1);
        }
    }

    @Test
    void readingsOfEarlierProgram_areSealedInPlace_andTheFileShrinks() throws IOException {
        var earlier = new Schema(Schema.READINGS.files().subList(0, 4));
        try (var database = Database.open(data().resolve("readings.db"), earlier)) {
            SqliteReadingStore.over(database, Bench.DOUBLED).append(manyProbes());
        }
        var size = Files.size(data().resolve("readings.db"));

        try (var store = open()) {
            assertThat(store.sealDays(SealedStores.DUBLIN, SealedStores.LATER)).isPositive();
            assertThat(store.readings().count()).isEqualTo(manyProbes().size());
        }
        assertThat(Files.size(data().resolve("readings.db"))).isLessThan(size / 2);
    }

    @Test
    void theOutbox_sendsSealedReadings_ofBeforeItWasOpened() {
        try (var store = SqliteReadingStore.open(data(), Bench.DOUBLED)) {
            store.append(season());
            store.sealBefore(SealedStores.LATER, SealedStores.DUBLIN);
            store.append(List.of(new RawReading("a", FIRST + 30_001, 7.25, 8)));
            store.outbox().openFor("somewhere");
            assertThat(store.outbox().pending()).isEqualTo(store.count());

            var sent = new ArrayList<RawReading>();
            for (var parcel = store.outbox().next(1_000);
                    parcel.isPresent();
                    parcel = store.outbox().next(1_000)) {
                sent.addAll(parcel.get().readings());
                store.outbox().done(parcel.get(), List.of());
            }

            assertThat(sent).hasSize((int) store.count()).doesNotHaveDuplicates();
            assertThat(store.outbox().pending()).isZero();
        }
    }

    @Test
    void aBackup_bringsSealedDaysBack() {
        List<Reading> before;
        try (var store = open()) {
            store.readings().append(season());
            store.sealDays(SealedStores.DUBLIN, SealedStores.LATER);
            before = scan(store);
            SiteBackup.write(folder, folder.resolve("backup.zip"));
        }

        SiteBackup.restore(folder.resolve("other"), folder.resolve("backup.zip"), Clock.systemUTC());

        try (var store = SiteStore.openToRead(folder.resolve("other/data"), Bench.DOUBLED)) {
            assertThat(scan(store)).isEqualTo(before);
        }
    }

    @Test
    void aSpoiltRun_isDamage() throws SQLException {
        try (var store = open()) {
            store.readings().append(season());
            store.sealDays(SealedStores.DUBLIN, SealedStores.LATER);
            try (var connection = DriverManager.getConnection("jdbc:sqlite:" + data().resolve("readings.db"));
                    var statement = connection.createStatement()) {
                statement.executeUpdate("UPDATE sealed SET content = substr(content, 1, 20) WHERE number = 1");
            }

            assertThatThrownBy(() -> scan(store))
                    .isInstanceOf(StoreException.class)
                    .hasMessageContaining(StoreException.Trouble.DAMAGED.words());
            assertThat(store.hasMetDamage()).isTrue();
        }
    }

    /** The README's script reads sealed days without this program. */
    @Test
    @NeedsServer("python3")
    void theScriptOfTheReadme_readsWhatIsSealed() throws IOException, InterruptedException {
        var readme = Files.readString(Path.of("README.md"));
        var start = readme.indexOf("```python\n") + "```python\n".length();
        var script =
                Files.writeString(folder.resolve("sealed.py"), readme.substring(start, readme.indexOf("```", start)));
        try (var store = SqliteReadingStore.open(data(), Bench.DOUBLED)) {
            store.append(season());
            store.append(List.of(new RawReading("c", 5, Double.MIN_VALUE, 8), new RawReading("c", 6, -1e300, 0)));
            store.sealBefore(SealedStores.LATER, SealedStores.DUBLIN);

            var process = new ProcessBuilder(
                            "python3",
                            script.toString(),
                            data().resolve("readings.db").toString())
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
            var lines = new String(process.getInputStream().readAllBytes(), UTF_8).lines();

            assertThat(process.waitFor()).isZero();
            var read = lines.map(line -> line.split(","))
                    .map(cells -> new RawReading(
                            cells[0],
                            Long.parseLong(cells[1]),
                            Double.parseDouble(cells[2]),
                            Integer.parseInt(cells[3])))
                    .toList();
            var expected = new ArrayList<RawReading>();
            for (var probe : List.of("a", "b", "c")) {
                expected.addAll(store.stretch().next(probe, Long.MIN_VALUE, Long.MAX_VALUE, Integer.MAX_VALUE));
            }
            assertThat(read).isEqualTo(expected);
        }
    }

    /** Five and a half days of two probes: counts, and sixteenths with odd numbers and marks among them. */
    private static List<RawReading> season() {
        var readings = new ArrayList<RawReading>();
        for (int minute = 0; minute < MINUTES + 660; minute++) {
            long time = FIRST + 60_000L * minute;
            readings.add(new RawReading("a", time, 1_600 + minute % 113, 0));
            readings.add(new RawReading(
                    "b",
                    time + 137 * (minute % 3),
                    minute % 997 == 0 ? Math.PI : minute % 50 / 16.0,
                    minute % 2_000 == 0 ? 8 : 0));
        }
        return readings;
    }

    private static List<RawReading> manyProbes() {
        return LongStream.range(0, 15 * 20_000)
                .mapToObj(i -> new RawReading("p" + i % 15, FIRST + 60_000 * (i / 15), 1_600 + i % 113, 0))
                .toList();
    }

    private static List<Reading> scan(SiteStore store) {
        var found = new ArrayList<Reading>();
        store.history().source(Bench.site("a", "b")).scan(Long.MIN_VALUE, Long.MAX_VALUE, found::add);
        return found;
    }

    private SiteStore open() {
        return SiteStore.open(data(), Bench.DOUBLED, Clock.systemUTC());
    }

    private Path data() {
        return folder.resolve("data");
    }

    private long number(String sql) throws SQLException {
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + data().resolve("readings.db"));
                var statement = connection.createStatement()) {
            return statement.executeQuery(sql).getLong(1);
        }
    }
}
