package traytender.ingest.store;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.InstanceOfAssertFactories.type;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.StoreException.Trouble;

class SiteStoreTest {
    private static final Instant NOW = Instant.parse("2026-03-14T05:41:00Z");
    private static final Clock CLOCK = Clock.fixed(NOW, ZoneOffset.UTC);
    private static final RawReading READING = new RawReading("air", NOW.toEpochMilli(), 18.5, 0);
    private static final JournalEntry ENTRY = new JournalEntry(NOW, "T01", EntryKind.TURNED, Map.of(), "");

    @TempDir
    Path folder;

    @Test
    void whatWasStored_isThereAfterReopening() {
        fill();

        try (var store = open()) {
            assertThat(store.readings().count()).isEqualTo(1);
            assertThat(store.journal().entries()).containsExactly(ENTRY);
            assertThat(store.setAside()).isEmpty();
        }
    }

    @Test
    void open_whileItIsOpen_isRefusedWithTheProcessThatHasIt() {
        try (var store = open()) {
            assertThat(store.setAside()).isEmpty();
            assertThatThrownBy(this::open)
                    .isInstanceOf(SiteInUseException.class)
                    .hasMessageContaining("process " + ProcessHandle.current().pid())
                    .hasMessageContaining(data().toString());
        }
        open().close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"a b", "why?mode=memory", "100%41", "no#1", "Gärtnerei 🌱", "it's;--", "file:x"})
    void folderWithAnOddName_isUsedUnderThatName(String name) {
        var odd = folder.resolve(name);
        try (var store = SiteStore.open(odd, Bench.DOUBLED, CLOCK)) {
            store.readings().append(List.of(READING));
        }

        assertThat(odd.resolve("readings.db")).exists();
        try (var store = SiteStore.openToRead(odd, Bench.DOUBLED)) {
            assertThat(store.readings().count()).isEqualTo(1);
        }
    }

    @Test
    void openToRead_whileItIsOpen_seesWhatIsCommitted() {
        try (var store = open();
                var reader = SiteStore.openToRead(data(), Bench.DOUBLED)) {
            store.readings().append(List.of(READING));

            assertThat(reader.readings().latest(Bench.probe("air"))).isPresent();
        }
    }

    @Test
    void openToRead_ofAFolderNeverRun_isEmptyAndLeavesNoLock() {
        try (var reader = SiteStore.openToRead(data(), Bench.DOUBLED)) {
            assertThat(reader.readings().count()).isZero();
            open().close();
        }
    }

    @Test
    void damagedHeader_isSetAsideWhole_andANewStoreBegun() throws IOException {
        fill();
        var garbage =
                "this is no database, whatever its name says\n".repeat(100).getBytes(UTF_8);
        Files.write(data().resolve("readings.db"), garbage);

        try (var store = open()) {
            var aside = data().resolve("readings.db.damaged-2026-03-14T054100Z");
            assertThat(store.setAside()).containsExactly(aside);
            assertThat(aside).hasBinaryContent(garbage);
            assertThat(store.readings().append(List.of(READING)).stored()).isEqualTo(1);
            assertThat(store.journal().entries()).containsExactly(ENTRY);
        }
        try (var store = open()) {
            assertThat(store.setAside()).isEmpty();
            assertThat(store.standingAside()).containsExactly("readings.db.damaged-2026-03-14T054100Z");
        }
    }

    @Test
    void damagedJournal_isSetAside_andTheReadingsStay() throws IOException {
        fill();
        Files.write(
                data().resolve("journal.db"), "nothing but words ".repeat(60).getBytes(UTF_8));

        try (var store = open()) {
            assertThat(store.setAside()).hasSize(1);
            assertThat(store.journal().entries()).isEmpty();
            assertThat(store.readings().count()).isEqualTo(1);
        }
    }

    @Test
    void truncatedFile_isFoundAtOpening() throws IOException {
        try (var store = open()) {
            store.readings()
                    .append(LongStream.range(0, 20_000)
                            .mapToObj(i -> new RawReading("p" + i % 5, i, i, 0))
                            .toList());
        }
        var file = data().resolve("readings.db");
        Files.write(file, Arrays.copyOf(Files.readAllBytes(file), 5 * 4096));

        try (var store = open()) {
            assertThat(store.setAside()).hasSize(1);
            assertThat(store.readings().count()).isZero();
        }
    }

    @Test
    void damageDeepInTheFile_throwsDamaged_andIsSetAsideAtTheNextOpening() throws IOException {
        try (var store = open()) {
            store.readings()
                    .append(LongStream.range(0, 50_000)
                            .mapToObj(i -> new RawReading("air", i, i, 0))
                            .toList());
        }
        var file = data().resolve("readings.db");
        var bytes = Files.readAllBytes(file);
        // A stretch in the middle of the file, away from both ends of the one probe's readings.
        Arrays.fill(bytes, bytes.length / 2, bytes.length / 2 + 8 * 4096, (byte) 0xA5);
        Files.write(file, bytes);

        try (var store = open()) {
            assertThat(store.setAside()).isEmpty();
            assertThatThrownBy(() -> store.readings().readings(Bench.probe("air"), Instant.MIN, Instant.MAX))
                    .asInstanceOf(type(StoreException.class))
                    .extracting(StoreException::trouble)
                    .isEqualTo(Trouble.DAMAGED);
        }
        try (var store = open()) {
            assertThat(store.setAside()).hasSize(1);
        }
    }

    @Test
    void newerTables_areRefusedAndLeftAlone() throws Exception {
        fill();
        sql("PRAGMA user_version = 99");
        var before = Files.readAllBytes(data().resolve("readings.db"));

        assertThatThrownBy(this::open)
                .isInstanceOf(StoreException.class)
                .hasMessageContaining("newer Traytender")
                .hasMessageContaining("99");
        assertThat(data().resolve("readings.db")).hasBinaryContent(before);
    }

    @Test
    void olderTables_areBroughtUp_andKeepTheirReadings() {
        var first = new Schema(List.of("readings/v001__readings.sql"));
        try (var database = Database.open(data().resolve("readings.db"), first)) {
            SqliteReadingStore.over(database, Bench.DOUBLED).append(List.of(READING));
        }

        try (var reader = SiteStore.openToRead(data(), Bench.DOUBLED)) {
            assertThat(reader.readings().count()).isEqualTo(1);
        }
        try (var store = open()) {
            store.importPositions().remember("file", 7);
            assertThat(store.importPositions().of("file")).isEqualTo(7);
            assertThat(store.readings().count()).isEqualTo(1);
        }
    }

    @Test
    void dataThatIsAFile_isAClearError() throws IOException {
        Files.writeString(data(), "");

        assertThatThrownBy(this::open).isInstanceOf(StoreException.class).hasMessageContaining(data().toString());
    }

    @Test
    void nativeLibrary_isUnpackedOnce_howeverOftenItIsOpened() throws IOException {
        for (int i = 0; i < 3; i++) {
            fill();
        }

        // The process may have unpacked it beside the first store it ever opened; then there is none here.
        var folder = data().resolve("native");
        if (Files.exists(folder)) {
            try (var files = Files.list(folder)) {
                assertThat(files).hasSize(1);
            }
        }
        assertThat(System.getProperty("org.sqlite.lib.path")).isNotNull();
    }

    @Test
    void removeOlderThan_countsBackFromTheNewestReading_whenTheClockRunsAhead() {
        try (var store = open()) {
            store.readings()
                    .append(List.of(
                            new RawReading("air", NOW.minus(Duration.ofDays(3)).toEpochMilli(), 1, 0), READING));

            assertThat(store.removeOlderThan(Duration.ofDays(2), NOW.plus(Duration.ofDays(20_000))))
                    .isEqualTo(1);
            assertThat(store.readings().count()).isEqualTo(1);
        }
    }

    private void fill() {
        try (var store = open()) {
            store.readings().append(List.of(READING));
            store.journal().add(ENTRY);
        }
    }

    private SiteStore open() {
        return SiteStore.open(data(), Bench.DOUBLED, CLOCK);
    }

    private Path data() {
        return folder.resolve("data");
    }

    private void sql(String sql) throws SQLException {
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + data().resolve("readings.db"));
                var statement = connection.createStatement()) {
            statement.executeUpdate(sql);
        }
    }
}
