package traytender.dashboard.limits;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.reading.Marks;
import traytender.dashboard.program.Stores;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SiteStore;

/** A site of one tray with one moisture probe in its centre, its store, and the desk at which its limits are changed. */
final class LimitsSite implements AutoCloseable {
    static final Instant START = Instant.parse("2026-03-10T00:00:00Z");
    static final Instant NOW = START.plus(Duration.ofDays(4));
    static final String CROP = """
            crop: tomato
            stages:
              seedling: # under lamps
                dry-line: 0.45 # they droop below
            """;
    private static final String SITE = """
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            rooms:
              - {id: propagation, kind: indoors}
            trays:
              - id: T01
                room: propagation
                cells: {rows: 8, columns: 16}
                medium: peat-perlite
                stage: seedling
                sowings:
                  - {rows: 1-8, crop: tomato, variety: Copper Lantern}
            probes:
              - id: T01-centre-moisture
                measures: moisture
                at: {tray: T01, row: 4, column: 8}
                message: {topic: alder/T01, format: json, value: /soil}
                calibration: none
                every: PT10M
            """;

    final SiteStore store;
    final LimitsDesk desk;
    private volatile SiteFolder folder;

    private LimitsSite(SiteFolder folder) {
        this.folder = folder;
        var clock = Clock.fixed(NOW, ZoneOffset.UTC);
        store = Stores.toWrite(folder, clock);
        desk = new LimitsDesk(() -> this.folder, store, this::takeOver, clock);
    }

    static LimitsSite in(Path path) throws IOException {
        Files.writeString(path.resolve("site.yaml"), SITE);
        Files.createDirectory(path.resolve("crops"));
        Files.writeString(path.resolve("crops").resolve("tomato.yaml"), CROP);
        return new LimitsSite(SiteReader.read(path));
    }

    private void takeOver(Crops crops) {
        folder = new SiteFolder(folder.path(), folder.site(), crops);
    }

    /** The site with the limits in force. */
    SiteFolder folder() {
        return folder;
    }

    /** Reads the folder anew, as a start of the program does. */
    void read() {
        folder = SiteReader.read(folder.path());
    }

    Path cropFile() {
        return folder.path().resolve("crops").resolve("tomato.yaml");
    }

    /** What {@link #storeReadings} has the moisture be at a time. */
    static double moisture(Instant time) {
        return 0.95 - 0.52 * (Duration.between(START, time).toMinutes() % 1440) / 1440.0;
    }

    /** From full to 43 percent and watered again at midnight, every day. */
    void storeReadings() {
        var readings = new ArrayList<RawReading>();
        for (Instant time = START; !time.isAfter(NOW); time = time.plus(Duration.ofMinutes(10))) {
            readings.add(new RawReading("T01-centre-moisture", time.toEpochMilli(), moisture(time), Marks.NONE));
        }
        store.readings().append(readings);
    }

    @Override
    public void close() {
        desk.close();
        store.close();
    }
}
