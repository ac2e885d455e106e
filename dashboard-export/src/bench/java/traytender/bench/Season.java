package traytender.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.dashboard.program.Stores;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SiteStore;

/**
 * A made-up bench of Alder Lane Nursery, stored: trays of seven probes each (four moisture, two root zones, the air of a room of
 * their own), one reading a probe and minute, with watering every other day, the sun's course and noise of cheap probes. The same
 * every time.
 *
 * @param path the site folder
 * @param trays how many trays
 * @param minutes how many minutes of readings are on disk
 */
record Season(Path path, int trays, int minutes) {
    static final int PROBES = 7;
    static final Instant FIRST = Instant.parse("2026-03-01T00:00:00Z");
    private static final int MINUTES_A_DAY = 1_440;
    private static final int[][] MOISTURE_CELLS = {{4, 8}, {1, 8}, {1, 1}, {8, 16}};
    private static final int GROUP = 5_000;

    /** Writes the site folder, with whatever messages it is to take, and no readings. */
    static Season site(Path path, int trays, String messages) throws IOException {
        Files.createDirectories(path);
        Files.writeString(path.resolve("site.yaml"), yaml(trays, messages));
        return new Season(path, trays, 0);
    }

    /** The site with so many days of readings on disk, those sealed that are over. */
    Season filled(int days) throws SQLException {
        return filledMinutes(days * MINUTES_A_DAY);
    }

    Season filledMinutes(int minutes) throws SQLException {
        SiteFolder folder = folder();
        try (SiteStore store = Stores.toWrite(folder, Clock.systemUTC());
                PlainTable plain = PlainTable.at(plain())) {
            var random = new SplittableRandom(20260301);
            var group = new ArrayList<RawReading>();
            for (int minute = 0; minute < minutes; minute++) {
                addMinute(group, minute, random);
                if (group.size() >= GROUP || minute == minutes - 1) {
                    store.readings().append(group);
                    plain.append(group);
                    group.clear();
                }
            }
            store.sealDays(folder.site().timezone(), FIRST.plusSeconds(60L * minutes));
        }
        return new Season(path, trays, minutes);
    }

    /** The same readings in SQLite's plainest table of the same columns: what the limits read. */
    Path plain() {
        return path.resolve("plain.db");
    }

    SiteFolder folder() {
        return SiteReader.read(path);
    }

    long readings() {
        return (long) trays * PROBES * minutes;
    }

    private void addMinute(List<RawReading> group, int minute, SplittableRandom random) {
        long timeMs = FIRST.toEpochMilli() + 60_000L * minute;
        for (int tray = 1; tray <= trays; tray++) {
            for (int probe = 0; probe < PROBES; probe++) {
                // Sensors have clocks of their own: a second's scatter, never out of order.
                long ownMs = timeMs + 100L * tray + 7L * probe + random.nextInt(40);
                group.add(new RawReading(id(tray, probe), ownMs, value(tray, probe, minute, random), 0));
            }
        }
    }

    /** What a probe sends: moisture in counts, temperatures in C to a sixteenth or tenth, as such sensors do. */
    static double value(int tray, int probe, int minute, SplittableRandom random) {
        double day = minute / (double) MINUTES_A_DAY;
        double sun = Math.max(0, Math.sin(2 * Math.PI * (day - 0.25)));
        double noise = random.nextDouble() + random.nextDouble() - 1;
        if (probe < MOISTURE_CELLS.length) {
            double sinceWatered = (day + tray * 0.37) % 2;
            double moisture = 0.98 - sinceWatered * (0.14 + 0.03 * ((probe + tray) % 4)) - 0.02 * sun;
            return Math.rint(2_900 - 1_600 * moisture + 6 * noise);
        }
        if (probe < 6) {
            return Math.rint(16 * (22 + (probe - 4) * -1.5 + 2 * sun + 0.1 * noise)) / 16;
        }
        return Math.rint(10 * (17 + 4 * sun + 0.2 * noise)) / 10;
    }

    static String id(int tray, int probe) {
        return switch (probe) {
            case 4 -> tray(tray) + "-centre-temperature";
            case 5 -> tray(tray) + "-edge-temperature";
            case 6 -> "room-" + tray + "-air";
            default -> tray(tray) + "-moisture-" + (probe + 1);
        };
    }

    static String topic(int tray, int probe) {
        return "alder/" + tray(tray) + "/" + probe;
    }

    static String tray(int tray) {
        return "T%02d".formatted(tray);
    }

    private static String yaml(int trays, String messages) {
        var yaml = new StringBuilder("""
                site: Alder Lane Nursery
                timezone: Europe/Dublin
                location: {latitude: 53.35, longitude: -6.26}
                rooms:
                """);
        for (int tray = 1; tray <= trays; tray++) {
            yaml.append("  - {id: room-%d, kind: indoors}\n".formatted(tray));
        }
        yaml.append("trays:\n");
        for (int tray = 1; tray <= trays; tray++) {
            yaml.append(
                    ("  - {id: %s, room: room-%d, cells: {rows: 8, columns: 16}, medium: peat-perlite, stage: seedling,"
                                    + " sowings: [{rows: 1-8, crop: tomato, variety: Copper Lantern, sown: 2026-02-10}]}\n")
                            .formatted(tray(tray), tray));
        }
        yaml.append("probes:\n");
        for (int tray = 1; tray <= trays; tray++) {
            for (int probe = 0; probe < PROBES; probe++) {
                yaml.append(probe(tray, probe));
            }
        }
        return yaml.append("messages:\n  ").append(messages).append('\n').toString();
    }

    private static String probe(int tray, int probe) {
        String message =
                ", message: {topic: %s, format: json, value: /value}, every: PT1M}\n".formatted(topic(tray, probe));
        String start = "  - {id: " + id(tray, probe);
        if (probe == 6) {
            return start + ", measures: air-temperature, at: {room: room-" + tray + "}" + message;
        }
        int[] cell = MOISTURE_CELLS[probe % 4];
        String at = ", at: {tray: %s, row: %d, column: %d}".formatted(tray(tray), cell[0], cell[1]);
        return probe < 4
                ? start + ", measures: moisture" + at + ", calibration: {dry: 2900, wet: 1300}" + message
                : start + ", measures: temperature" + at + message;
    }
}
