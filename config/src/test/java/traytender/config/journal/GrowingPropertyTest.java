package traytender.config.journal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.BeforeContainer;
import org.jspecify.annotations.Nullable;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.site.Cell;
import traytender.config.site.CellBlock;

/** What holds of every journal, however odd. */
class GrowingPropertyTest {
    private static final Instant START = Instant.parse("2026-03-02T08:00:00Z");

    private static @Nullable SiteFolder site;

    @BeforeContainer
    static void readSite() throws IOException {
        Path folder = Files.createTempDirectory("growing");
        Path file = folder.resolve("site.yaml");
        Files.writeString(file, """
                site: Alder Lane Nursery
                timezone: Europe/Dublin
                rooms: [{id: propagation, kind: indoors}, {id: frame, kind: outdoors}]
                mats: [{id: mat-1, room: propagation, since: 2026-03-05}]
                trays:
                  - id: T01
                    room: propagation
                    mat: mat-1
                    cells: {rows: 4, columns: 6}
                    sowings:
                      - {rows: 1-2, crop: tomato, variety: Copper Lantern}
                      - {rows: 3-4, columns: 1-3, crop: pepper, variety: Long Meadow, stage: seedling}
                      - {rows: 3, crop: basil, variety: Pale Anchor, since: 2026-03-09}
                  - {id: T02, room: frame, cells: {rows: 3, columns: 3}, since: 2026-03-04}
                """);
        site = SiteReader.read(folder);
        Files.delete(file);
        Files.delete(folder);
    }

    private static Growing growing(List<JournalEntry> journal) {
        return Growing.of(site.site(), site.crops(), journal);
    }

    @Property(tries = 400, seed = "20260314")
    void everyCell_isInAtMostOneSowing(@ForAll("journals") List<JournalEntry> journal) {
        Growing growing = growing(journal);

        for (TrayNow now : changes(growing)) {
            var taken = new HashSet<Cell>();
            for (SowingNow sowing : now.sowings()) {
                CellBlock block = sowing.block();
                assertThat(CellBlock.whole(now.cells()).without(block).stream()
                                .mapToInt(CellBlock::count)
                                .sum())
                        .isEqualTo(now.cells().count() - block.count());
                for (int row = block.firstRow(); row <= block.lastRow(); row++) {
                    for (int column = block.firstColumn(); column <= block.lastColumn(); column++) {
                        assertThat(taken.add(new Cell(row, column)))
                                .as("%s", now)
                                .isTrue();
                    }
                }
                assertThat(sowing.limits())
                        .isEqualTo(site.crops().get(sowing.sowing().crop()).limits(sowing.stage()));
            }
        }
    }

    @Property(tries = 200, seed = "20260314")
    void lookup_findsTheLastChangeBefore(
            @ForAll("journals") List<JournalEntry> journal, @ForAll("times") Instant time) {
        Growing growing = growing(journal);

        for (String tray : List.of("T01", "T02")) {
            List<TrayNow> changes = growing.changes(tray);
            assertThat(changes).isSortedAccordingTo(Comparator.comparing(TrayNow::since));
            assertThat(changes.stream().map(TrayNow::since).distinct()).hasSameSizeAs(changes);
            TrayNow last = null;
            for (TrayNow change : changes) {
                last = change.since().isAfter(time) ? last : change;
            }
            assertThat(growing.find(tray, time).orElse(null)).isSameAs(last);
        }
    }

    @Property(tries = 200, seed = "20260314")
    void entriesAtDifferentTimes_countInAnyOrder(@ForAll("journals") List<JournalEntry> journal) {
        var distinct = new ArrayList<>(journal.stream()
                .collect(Collectors.toMap(JournalEntry::time, entry -> entry, (one, other) -> one))
                .values());
        var inOrder = distinct.stream()
                .sorted(Comparator.comparing(JournalEntry::time))
                .toList();
        var reversed = inOrder.stream()
                .sorted(Comparator.comparing(JournalEntry::time).reversed())
                .toList();

        assertThat(changes(growing(reversed))).isEqualTo(changes(growing(inOrder)));
    }

    @Property(tries = 200, seed = "20260314")
    void turnedTwice_isAsIfNotTurned(@ForAll("journals") List<JournalEntry> journal) {
        Instant end = START.plus(Duration.ofDays(100));
        var turned = new ArrayList<>(journal);
        turned.add(JournalEntry.of(end, "T01", EntryKind.TURNED, ""));
        turned.add(JournalEntry.of(end.plusSeconds(60), "T01", EntryKind.TURNED, ""));

        TrayNow before = growing(journal).at("T01", end.plusSeconds(60));
        TrayNow after = growing(turned).at("T01", end.plusSeconds(60));

        assertThat(after.sowings()).isEqualTo(before.sowings());
        assertThat(after.turned()).isEqualTo(before.turned());
    }

    private static List<TrayNow> changes(Growing growing) {
        return Stream.of("T01", "T02")
                .flatMap(tray -> growing.changes(tray).stream())
                .toList();
    }

    @Provide
    Arbitrary<Instant> times() {
        return Arbitraries.integers().between(-48, 2000).map(hours -> START.plus(Duration.ofHours(hours)));
    }

    @Provide
    Arbitrary<List<JournalEntry>> journals() {
        Arbitrary<String> detail = Arbitraries.of(
                        "",
                        "rows=1",
                        "rows=2-3",
                        "rows=4-9",
                        "to=T02",
                        "to=T01",
                        "to=T99",
                        "to=frame",
                        "to-rows=2",
                        "to-rows=7",
                        "count=2",
                        "percent=40",
                        "percent=80",
                        "crop=kale",
                        "crop=none",
                        "variety=Grey Harbour",
                        "stage=hardening",
                        "mat=none",
                        "mat=mat-1",
                        "no form at all")
                .list()
                .ofMaxSize(3)
                .map(parts -> String.join(";", parts));
        return Combinators.combine(
                        times(), Arbitraries.of("T01", "T01", "T02", "T07"), Arbitraries.of(EntryKind.values()), detail)
                .as(JournalEntry::of)
                .list()
                .ofMaxSize(12);
    }
}
