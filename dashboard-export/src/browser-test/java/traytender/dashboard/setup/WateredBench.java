package traytender.dashboard.setup;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.reading.Marks;
import traytender.dashboard.program.Stores;
import traytender.ingest.broker.BuiltInBroker;
import traytender.ingest.store.RawReading;

/**
 * A bench with nearly five days behind it, watered twice a day. T01 has two moisture probes, of which the one in the corner reads less
 * after each watering, and a thermometer; T02 stands beside it, sown alike, without a probe; T03 lies on a load cell.
 */
final class WateredBench {
    static final Instant NOW = Instant.parse("2026-03-14T12:00:00Z");
    static final Clock CLOCK = Clock.fixed(NOW, ZoneOffset.UTC);
    private static final Duration BEHIND = Duration.ofHours(114);
    private static final int HALF_DAY_MINUTES = 720;

    private static final String SITE = """
            # Ours since 1988.
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            location: {latitude: 53.35, longitude: -6.26}
            rooms:
              - {id: propagation, kind: indoors}
            mats:
              - {id: mat-1, room: propagation, thermostat: own}
            trays:
              - id: T01
                room: propagation
                bench: north
                cells: {rows: 6, columns: 12}
                stage: seedling
                sowings: [{rows: 1-6, crop: tomato, variety: Copper Lantern, sown: 2026-03-01}]
              - id: T02
                room: propagation
                bench: north
                cells: {rows: 6, columns: 12}
                stage: seedling
                sowings: [{rows: 1-6, crop: tomato, variety: Long Meadow, sown: 2026-03-01}]
              - id: T03
                room: propagation
                bench: south
                cells: {rows: 6, columns: 12}
                stage: seedling
                sowings: [{rows: 1-6, crop: tomato, variety: Long Meadow, sown: 2026-03-01}]
            probes:
              - {id: T01-centre, measures: moisture, at: {tray: T01, row: 3, column: 6}, message: {topic: alder/T01/centre, format: text}, calibration: {dry: 2900, wet: 1300}, every: PT10M}
              - {id: T01-corner, measures: moisture, at: {tray: T01, row: 1, column: 1}, message: {topic: alder/T01/corner, format: text}, calibration: {dry: 2900, wet: 1300}, every: PT10M}
              - {id: T01-root, measures: temperature, at: {tray: T01, row: 3, column: 6}, message: {topic: alder/T01/root, format: text}, every: PT1M}
              - {id: T03-root, measures: temperature, at: {tray: T03, row: 3, column: 6}, message: {topic: alder/T03/root, format: text}, every: PT1M}
              - {id: T03-scale, measures: weight, at: {tray: T03}, message: {topic: alder/T03/scale, format: text}, calibration: {tare: 900, drained: 3400}, every: PT10M}
            messages: {port: %d}
            """;

    private WateredBench() {}

    /** Writes it into a folder. */
    static SiteFolder in(Path folder) throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE.formatted(BuiltInBroker.freePort(0)));
        SiteFolder site = SiteReader.read(folder);
        try (var store = Stores.toWrite(site, CLOCK)) {
            store.readings().append(readings());
        }
        return site;
    }

    private static List<RawReading> readings() {
        var readings = new ArrayList<RawReading>();
        for (int minute = 0; minute <= BEHIND.toMinutes(); minute += 10) {
            double moisture = 1 - 0.3 * (minute % HALF_DAY_MINUTES) / HALF_DAY_MINUTES;
            int waterings = minute / HALF_DAY_MINUTES;
            double lost = 0.05 * Math.max(0, waterings - 3);
            add(readings, "T01-centre", minute, 2900 - 1600 * moisture);
            add(readings, "T01-corner", minute, 2900 - 1600 * (moisture - lost));
            add(readings, "T03-scale", minute, 900 + 2500 * moisture);
        }
        for (int minute = (int) BEHIND.toMinutes() - 60; minute <= BEHIND.toMinutes(); minute++) {
            add(readings, "T01-root", minute, 21.9);
            add(readings, "T03-root", minute, 21.4);
        }
        return readings;
    }

    private static void add(List<RawReading> readings, String probe, int minute, double raw) {
        long timeMs = NOW.minus(BEHIND).plus(Duration.ofMinutes(minute)).toEpochMilli();
        readings.add(new RawReading(probe, timeMs, raw, Marks.NONE));
    }
}
