package traytender.config.journal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;

class VarietyCountsTest {
    @TempDir
    Path folder;

    private SiteFolder site;

    @BeforeEach
    void site() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), """
                site: Alder Lane Nursery
                timezone: Europe/Dublin
                rooms: [{id: propagation, kind: indoors}]
                trays:
                  - id: T01
                    room: propagation
                    cells: {rows: 8, columns: 16}
                    sowings:
                      - {rows: 1-4, crop: tomato, variety: Copper Lantern, seeds-per-cell: 2}
                      - {rows: 5-8, crop: pepper, variety: Long Meadow}
                  - {id: T05, room: propagation, cells: {rows: 4, columns: 8}}
                """);
        site = SiteReader.read(folder);
    }

    private List<VarietyCount> counts(String journal) {
        List<JournalEntry> entries = JournalCsv.read(new StringReader(journal)).entries();
        return VarietyCounts.of(site.site(), Growing.of(site.site(), site.crops(), entries), entries);
    }

    @Test
    void withoutJournal_onlySeedsAreKnown() {
        assertThat(counts(""))
                .containsExactly(
                        new VarietyCount("pepper", "Long Meadow", null, null, 0, 0, 0, 0),
                        new VarietyCount("tomato", "Copper Lantern", 128, null, 0, 0, 0, 0));
    }

    @Test
    void season_addsUp() {
        List<VarietyCount> counts = counts("""
                2026-03-02T09:00:00Z,T01,sown,
                2026-03-09T09:00:00Z,T01,emerged,rows=1-4;percent=30
                2026-03-10T09:00:00Z,T01,emerged,rows=1-4;count=118;of=128
                2026-03-12T09:00:00Z,T01,thinned,rows=1-4;count=56
                2026-03-14T09:00:00Z,T01,losses,rows=1-4;count=2
                2026-03-15T09:00:00Z,T01,losses,three died
                2026-03-28T09:00:00Z,T01,potted-up,rows=1-2;to=T05;count=30
                2026-05-01T09:00:00Z,T05,losses,count=4
                2026-05-12T09:00:00Z,T05,planted-out,count=26
                """);

        assertThat(counts.get(1)).isEqualTo(new VarietyCount("tomato", "Copper Lantern", 128, 118, 56, 6, 30, 26));
        assertThat(counts.get(0)).isEqualTo(new VarietyCount("pepper", "Long Meadow", null, null, 0, 0, 0, 0));
    }

    @Test
    void countOnTheWholeTray_isSharedByCells() {
        List<VarietyCount> counts = counts("2026-03-14T09:00:00Z,T01,losses,count=5\n");

        assertThat(counts.stream().mapToInt(VarietyCount::lost).sum()).isEqualTo(5);
        assertThat(counts).extracting(VarietyCount::lost).containsExactlyInAnyOrder(2, 3);
    }

    @Test
    void pottedUpWithoutACount_isOneACell() {
        assertThat(counts("2026-03-14T09:00:00Z,T01,potted-up,rows=1-2\n")
                        .get(1)
                        .pottedUp())
                .isEqualTo(32);
    }

    @Test
    void sownAgain_countsItsSeedsAgain() {
        List<VarietyCount> counts = counts("""
                2026-03-02T09:00:00Z,T01,sown,
                2026-03-20T09:00:00Z,T01,sown,rows=1-4
                2026-03-21T09:00:00Z,T05,sown,crop=kale;variety=Grey Harbour;seeds-per-cell=1
                """);

        assertThat(counts).extracting(VarietyCount::seeds).containsExactly(32, null, 256);
    }
}
