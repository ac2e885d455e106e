package traytender.ingest.file;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.Bench;
import traytender.ingest.store.JournalStore;

class JournalImportTest {
    @TempDir
    Path folder;

    @Test
    void entries_comeIn_onceOnly_andBadLinesAreReported() throws IOException {
        var file = Files.writeString(folder.resolve("journal.csv"), """
                time,tray,entry,detail
                2026-03-14T05:41:00Z,T01,watered,zones=centre;litres=1.5
                2026-03-14T05:42:00Z,nowhere,watered,
                2026-03-14T05:43:00Z,T01,sang,
                """);
        var log = new ImportLog();
        try (var journal = JournalStore.open(folder.resolve("data"))) {
            var journalImport = new JournalImport(Bench.siteWithTray("T01"), journal);

            assertThat(journalImport.read(file, log)).isEqualTo(new ImportResult(1, 0, 2, 0));
            assertThat(journalImport.read(file, ImportListener.SILENT)).isEqualTo(new ImportResult(0, 1, 2, 0));
            assertThat(journal.entries())
                    .containsExactly(new JournalEntry(
                            Instant.parse("2026-03-14T05:41:00Z"),
                            "T01",
                            EntryKind.WATERED,
                            Map.of("zones", "centre", "litres", "1.5"),
                            ""));
        }
        assertThat(log.rejected)
                .satisfiesExactly(
                        line -> assertThat(line).startsWith("3: ").contains("nowhere"),
                        line -> assertThat(line).startsWith("4: ").contains("sang"));
    }
}
