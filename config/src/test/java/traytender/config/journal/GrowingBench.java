package traytender.config.journal;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import traytender.config.crop.Crops;
import traytender.config.crop.Stage;
import traytender.config.folder.SiteReader;
import traytender.config.site.Broker;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.Mat;
import traytender.config.site.Messages;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.Sowing;
import traytender.config.site.StoreSettings;
import traytender.config.site.Tray;

/** A tray T01 with tomato in front of pepper, a tray T05 that is empty at first, on a bench of 8 x 16 cells each. */
abstract class GrowingBench {
    static final Crops CROPS = SiteReader.crops(null, null);
    static final Instant START = Instant.parse("2026-03-02T08:00:00Z");
    static final Sowing TOMATO = new Sowing(new CellBlock(1, 4, 1, 16), "tomato", "Copper Lantern", null, null);
    static final Sowing PEPPER = new Sowing(new CellBlock(5, 8, 1, 16), "pepper", "Long Meadow", null, null);

    final List<JournalEntry> journal = new ArrayList<>();

    static Site site(Stage stage, List<Sowing> ofT05) {
        return new Site(
                "Alder Lane Nursery",
                ZoneId.of("Europe/Dublin"),
                null,
                Show.USUAL,
                List.of(new Room("propagation", RoomKind.INDOORS, null), new Room("frame", RoomKind.OUTDOORS, null)),
                List.of(new Mat("mat-1", "propagation", false, null)),
                List.of(tray("T01", stage, List.of(TOMATO, PEPPER)), tray("T05", Stage.GERMINATING, ofT05)),
                List.of(),
                new Messages(new Broker.BuiltIn("127.0.0.1", 1883), "traytender"),
                new StoreSettings(null, null),
                null,
                LocalTime.of(7, 0));
    }

    static Tray tray(String id, Stage stage, List<Sowing> sowings) {
        return new Tray(id, "propagation", null, "mat-1", new Cells(8, 16), "", stage, sowings, Instant.MIN);
    }

    static Instant day(int days) {
        return START.plus(Duration.ofDays(days));
    }

    void write(int days, String tray, EntryKind kind, String detail) {
        journal.add(JournalEntry.of(day(days), tray, kind, detail));
    }

    Growing growing() {
        return Growing.of(site(Stage.GERMINATING, List.of()), CROPS, journal);
    }

    String stages(int days) {
        return stages(growing(), "T01", day(days));
    }

    static String stages(Growing growing, String tray, Instant time) {
        return growing.at(tray, time).sowings().stream()
                .map(now -> now.sowing().crop() + " " + now.block().firstRow() + "-"
                        + now.block().lastRow() + " " + now.stage().word())
                .sorted()
                .toList()
                .toString();
    }
}
