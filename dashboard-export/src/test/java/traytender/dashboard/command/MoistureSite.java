package traytender.dashboard.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** A site folder whose one tray has some moisture probes from its centre to its front left corner, each with the topic {@code alder/PROBE}. */
final class MoistureSite {
    private MoistureSite() {}

    /**
     * Writes it.
     *
     * @param broker as {@code site.yaml} names it, with its port
     */
    static Path of(Path folder, List<String> names, String broker) throws IOException {
        Path site = SmallSite.in(folder);
        var probes = new StringBuilder("probes:\n");
        for (int place = 0; place < names.size(); place++) {
            probes.append("  - {id: ")
                    .append(names.get(place))
                    .append(", measures: moisture, at: {tray: T01, row: ")
                    .append(4 - place)
                    .append(", column: ")
                    .append(8 - 2 * place)
                    .append("}, message: {topic: alder/")
                    .append(names.get(place))
                    .append(
                            ", format: json, value: /soil, time: /at}, calibration: {dry: 2900, wet: 1300}, every: PT1M}\n");
        }
        Path file = site.resolve("site.yaml");
        Files.writeString(
                file,
                Files.readString(file)
                        .replaceAll("(?s)probes:\n.*?(?=messages:)", probes.toString())
                        .replace("built-in\n  port: 0", broker));
        return site;
    }
}
