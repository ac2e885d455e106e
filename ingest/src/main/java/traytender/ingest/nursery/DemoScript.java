package traytender.ingest.nursery;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Zone;
import traytender.ingest.nursery.world.Happening;
import traytender.ingest.nursery.world.World;

/**
 * What is done and what goes wrong at Alder Lane, counted back from now.
 *
 * <ul>
 *   <li>T01 was last watered 32 hours ago; its centre dries over mat-1. Its tomatoes are up since yesterday, its peppers not.
 *   <li>T03 was watered three hours ago, but its back right corner was missed, as the day before.
 *   <li>mat-2 says it rests, and heats since six hours ago: its contact sticks.
 *   <li>T05's centre probe fell silent three hours ago; the tray was potted up three days ago and fed too soon.
 *   <li>The last night in the cold frame was clear and cold.
 *   <li>T02 is watered every morning, T06 and T07 every other one, and they are well.
 * </ul>
 */
final class DemoScript {
    /** When T05's centre device went silent, before now. */
    static final Duration SILENT_FOR = Duration.ofHours(3);

    private static final int MORNINGS_AHEAD = 60;

    private final Instant now;
    private final ZoneId zone;
    private final List<JournalEntry> journal = new ArrayList<>();
    private final List<Happening> happenings = new ArrayList<>();

    DemoScript(Instant now, ZoneId zone) {
        this.now = now;
        this.zone = zone;
        mornings();
        northBench();
        southBench();
        greenhouse();
    }

    List<Happening> happenings() {
        return List.copyOf(happenings);
    }

    List<JournalEntry> journal() {
        return journal.stream()
                .sorted(Comparator.comparing(JournalEntry::time).thenComparing(JournalEntry::tray))
                .toList();
    }

    private void mornings() {
        Instant first = now.minus(DemoNursery.BEHIND);
        ZonedDateTime round = now.minus(DemoNursery.BEHIND).atZone(zone).with(LocalTime.of(7, 40));
        for (int day = 0; day < MORNINGS_AHEAD; day++) {
            Instant at = round.plusDays(day).toInstant();
            if (at.isAfter(first)) {
                wateredEvenly("T02", at);
            }
            if (at.isAfter(first) && day % 2 == 0) {
                wateredEvenly("T06", at.plusSeconds(240));
                wateredEvenly("T05", at.plusSeconds(480));
                wateredEvenly("T07", at.plusSeconds(1200));
            }
            if (at.isAfter(now)) {
                wateredEvenly("T01", at.plusSeconds(60));
                wateredEvenly("T03", at.plusSeconds(120));
                wateredEvenly("T04", at.plusSeconds(180));
            }
        }
    }

    private void northBench() {
        wateredEvenly("T01", ago(80));
        wateredEvenly("T01", ago(56));
        wateredEvenly("T01", ago(32));
        Instant up = ago(26);
        write(up, "T01", EntryKind.EMERGED, Map.of("percent", "80", "rows", "1-4"));
        happenings.add(Happening.of(up, world -> world.tray("T01").canopy(0.003)));
    }

    private void southBench() {
        wateredEvenly("T03", ago(75));
        wateredEvenly("T03", ago(51));
        missing("T03", ago(27), Zone.CORNER_BACK_RIGHT);
        missing("T03", ago(3), Zone.CORNER_BACK_RIGHT);
        wateredEvenly("T04", ago(70));
        wateredEvenly("T04", ago(24));
        happenings.add(Happening.of(ago(6), world -> world.mat("mat-2").welded(true)));
        happenings.add(Happening.of(ago(6), world -> world.mat("mat-2").switchedOn(false)));
        write(ago(6), "T04", EntryKind.MAT_OFF, Map.of());
    }

    private void greenhouse() {
        Instant potted = ago(76);
        write(potted, "T05", EntryKind.POTTED_UP, Map.of());
        happenings.add(Happening.of(potted, world -> world.tray("T05").refill(0.6)));
        wateredEvenly("T05", potted.plusSeconds(900));
        write(ago(20), "T05", EntryKind.FED, Map.of());
    }

    private Instant ago(int hours) {
        return now.minus(Duration.ofHours(hours));
    }

    private void wateredEvenly(String tray, Instant at) {
        missing(tray, at, Zone.TRAY);
    }

    /** Waters all but a zone; {@link Zone#TRAY} misses none. */
    private void missing(String tray, Instant at, Zone missed) {
        happenings.add(new Happening(at, tray, world -> water(world, tray, missed)));
        if (at.isBefore(now)) {
            write(at, tray, EntryKind.WATERED, Map.of("from", "above"));
        }
    }

    private static void water(World world, String tray, Zone missed) {
        Cells cells = world.tray(tray).traits().cells();
        var amounts = new double[cells.count()];
        Arrays.setAll(amounts, i -> {
            var cell = new Cell(i / cells.columns() + 1, i % cells.columns() + 1);
            return Zone.of(cell, cells) == missed ? 0.01 : 0.9;
        });
        world.tray(tray).water(amounts);
    }

    private void write(Instant at, String tray, EntryKind kind, Map<String, String> detail) {
        journal.add(new JournalEntry(at, tray, kind, detail, ""));
    }
}
