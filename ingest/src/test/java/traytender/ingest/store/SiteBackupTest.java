package traytender.ingest.store;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.LongStream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;

class SiteBackupTest {
    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-03-14T05:41:00Z"), ZoneOffset.UTC);
    private static final JournalEntry ENTRY = new JournalEntry(CLOCK.instant(), "T01", EntryKind.TURNED, Map.of(), "");

    @TempDir
    Path folder;

    private Path site;
    private Path backup;

    @BeforeEach
    void fill() throws IOException {
        site = Files.createDirectory(folder.resolve("site"));
        backup = folder.resolve("alder.zip");
        Files.writeString(site.resolve("site.yaml"), "site: Alder Lane Nursery\n");
        Files.writeString(site.resolve("broker.password"), "secret");
        Files.createDirectory(site.resolve("crops"));
        Files.writeString(site.resolve("crops/tomato.yaml"), "crop: tomato\n");
        try (var store = open(site)) {
            store.readings().append(readings(0, 100));
            store.journal().add(ENTRY);
        }
    }

    @Test
    void restoredElsewhere_isTheSameSite_withoutItsPasswords() throws IOException {
        SiteBackup.write(site, backup);
        var elsewhere = folder.resolve("new/site");

        assertThat(SiteBackup.restore(elsewhere, backup, CLOCK)).isEmpty();

        try (var store = open(elsewhere)) {
            assertThat(store.readings().count()).isEqualTo(100);
            assertThat(store.journal().entries()).containsExactly(ENTRY);
        }
        assertThat(elsewhere.resolve("site.yaml")).hasContent("site: Alder Lane Nursery\n");
        assertThat(elsewhere.resolve("crops/tomato.yaml")).exists();
        assertThat(elsewhere.resolve("broker.password")).doesNotExist();
        assertThat(elsewhere.resolve("data/restore.part")).doesNotExist();
    }

    @Test
    void restoredOverALiveFolder_setsWhatWasThereAside_andKeepsItsSiteFile() throws IOException {
        SiteBackup.write(site, backup);
        Files.writeString(site.resolve("site.yaml"), "site: edited since\n");
        try (var store = open(site)) {
            store.readings().append(readings(100, 50));
        }

        var aside = SiteBackup.restore(site, backup, CLOCK);

        assertThat(aside)
                .containsExactly(
                        site.resolve("data/readings.db.before-restore-2026-03-14T054100Z"),
                        site.resolve("data/journal.db.before-restore-2026-03-14T054100Z"))
                .allSatisfy(path -> assertThat(path).exists());
        try (var store = open(site)) {
            assertThat(store.readings().count()).isEqualTo(100);
        }
        assertThat(site.resolve("site.yaml")).hasContent("site: edited since\n");
    }

    /** Every group has 10 readings, so a copy that caught half a group would show. */
    @Test
    void backupWhileAnotherThreadWrites_isConsistent() throws Exception {
        try (var store = open(site)) {
            var going = new AtomicBoolean(true);
            var writer = new Thread(() -> {
                for (long i = 100; going.get(); i += 10) {
                    store.readings().append(readings(i, 10));
                }
            });
            writer.start();
            SiteBackup.write(site, backup);
            going.set(false);
            writer.join();
        }
        SiteBackup.restore(folder.resolve("copy"), backup, CLOCK);

        try (var copy = open(folder.resolve("copy"))) {
            assertThat(copy.readings().count()).isGreaterThanOrEqualTo(100);
            assertThat(copy.readings().count() % 10).isZero();
        }
    }

    @Test
    void backup_leavesOnlyTheBackup() throws IOException {
        SiteBackup.write(site, backup);

        try (var files = Files.list(folder)) {
            assertThat(files).containsExactlyInAnyOrder(site, backup);
        }
        try (var zip = new ZipFile(backup.toFile())) {
            assertThat(zip.stream().map(ZipEntry::getName))
                    .containsExactly("data/readings.db", "data/journal.db", "crops/tomato.yaml", "site.yaml");
        }
    }

    @Test
    void restore_whileTheProgramRuns_isRefused() {
        SiteBackup.write(site, backup);
        try (var running = open(site)) {
            assertThatThrownBy(() -> SiteBackup.restore(site, backup, CLOCK)).isInstanceOf(SiteInUseException.class);
            assertThat(running.readings().count()).isEqualTo(100);
        }
    }

    @Test
    void restoreOfSomethingElse_changesNothing() throws IOException {
        var text = Files.writeString(folder.resolve("text.zip"), "no zip at all");
        var other = zip("hello.txt", "hello".getBytes(UTF_8));
        var damaged = zip("data/readings.db", "no database".repeat(100).getBytes(UTF_8));

        for (var file : List.of(text, other, damaged, folder.resolve("none.zip"))) {
            assertThatThrownBy(() -> SiteBackup.restore(site, file, CLOCK)).isInstanceOf(StoreException.class);
        }
        try (var store = open(site)) {
            assertThat(store.readings().count()).isEqualTo(100);
        }
    }

    @Test
    void truncatedBackup_changesNothing() throws IOException {
        SiteBackup.write(site, backup);
        var bytes = Files.readAllBytes(backup);
        Files.write(backup, Arrays.copyOf(bytes, bytes.length / 2));

        assertThatThrownBy(() -> SiteBackup.restore(site, backup, CLOCK)).isInstanceOf(StoreException.class);
        try (var store = open(site)) {
            assertThat(store.readings().count()).isEqualTo(100);
        }
    }

    @Test
    void entriesWithMadeUpNames_areNotUnpacked() throws IOException {
        SiteBackup.write(site, backup);
        var evil = folder.resolve("evil.zip");
        try (var in = new ZipFile(backup.toFile());
                var out = new ZipOutputStream(Files.newOutputStream(evil))) {
            for (var entry : in.stream().toList()) {
                out.putNextEntry(new ZipEntry(entry.getName()));
                in.getInputStream(entry).transferTo(out);
            }
            out.putNextEntry(new ZipEntry("crops/../../../outside.yaml"));
            out.write(1);
        }

        SiteBackup.restore(folder.resolve("copy"), evil, CLOCK);

        assertThat(folder.resolve("outside.yaml")).doesNotExist();
        assertThat(folder.getParent().resolve("outside.yaml")).doesNotExist();
    }

    @Test
    void folderThatHasNotRun_cannotBeBackedUp() throws IOException {
        var empty = Files.createDirectory(folder.resolve("empty"));

        assertThatThrownBy(() -> SiteBackup.write(empty, backup))
                .isInstanceOf(StoreException.class)
                .hasMessageContaining("has not run");
        assertThat(backup).doesNotExist();
    }

    private Path zip(String name, byte[] content) throws IOException {
        var file = Files.createTempFile(folder, "made", ".zip");
        try (var zip = new ZipOutputStream(Files.newOutputStream(file))) {
            for (var entry : List.of(name, "data/journal.db")) {
                zip.putNextEntry(new ZipEntry(entry));
                zip.write(content);
            }
        }
        return file;
    }

    private static SiteStore open(Path site) {
        return SiteStore.open(site.resolve("data"), Bench.DOUBLED, CLOCK);
    }

    private static List<RawReading> readings(long from, long count) {
        return LongStream.range(from, from + count)
                .mapToObj(i -> new RawReading("air", i, i, 0))
                .toList();
    }
}
