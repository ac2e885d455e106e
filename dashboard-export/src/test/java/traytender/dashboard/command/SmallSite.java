package traytender.dashboard.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A site folder with one tray of tomatoes and two moisture probes, for tests. */
final class SmallSite {
    private static final String YAML = """
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            location: {latitude: 53.35, longitude: -6.26}
            rooms:
              - {id: propagation, kind: indoors}
            trays:
              - id: T01
                room: propagation
                cells: {rows: 8, columns: 16}
                medium: peat-perlite
                stage: seedling
                sowings:
                  - {rows: 1-8, crop: tomato, variety: Copper Lantern, sown: 2026-03-02}
            probes:
              - id: T01-centre-moisture
                measures: moisture
                at: {tray: T01, row: 4, column: 8}
                message: {topic: alder/T01/centre, format: json, value: /soil, time: /at}
                calibration: {dry: 2900, wet: 1300}
                every: PT1M
              - id: T01-centre-temperature
                measures: temperature
                at: {tray: T01, row: 4, column: 8}
                message: {topic: alder/T01/centre, format: json, value: /temp, time: /at}
                every: PT1M
            messages:
            """;

    private SmallSite() {}

    /** Writes it, with the built-in broker at a port. */
    static Path in(Path folder, int port) throws IOException {
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("site.yaml"), YAML + "  broker: built-in\n  port: " + port + "\n");
        return folder;
    }

    static Path in(Path folder) throws IOException {
        return in(folder, 0);
    }

    /** Readings of {@code minutes} minutes from 2026-03-14T05:00Z on in which the centre lies far below its dry line. */
    static String dryReadings(int minutes) {
        var csv = new StringBuilder("time,probe,value\n");
        for (int minute = 0; minute < minutes; minute++) {
            csv.append("2026-03-14T%02d:%02d:10Z,T01-centre-moisture,2700\n".formatted(5 + minute / 60, minute % 60));
        }
        return csv.toString();
    }
}
