package traytender.dashboard.command;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import traytender.config.alert.Alert;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.reading.ReadingSource;
import traytender.dashboard.program.Stores;
import traytender.dashboard.record.AlertJson;
import traytender.ingest.store.SiteStore;
import traytender.rules.Replay;

/** Runs the rules over stored readings and writes the alerts they give. */
@Command(
        name = "replay",
        description = {
            "Runs the rules over all stored readings and writes one alert record a line, in order of opening.",
            "Nothing is sent out. The same readings and limits give the same alerts as they did live.",
            "Standard error tells when nothing was heard from any probe: no tray was watched then."
        })
final class ReplayCommand extends SiteCommand {
    @Option(
            names = "--from",
            paramLabel = "T",
            converter = Rfc3339.class,
            description = "Write only alerts that opened at this time or later.")
    private Instant from = Instant.MIN;

    @Option(
            names = "--to",
            paramLabel = "T",
            converter = Rfc3339.class,
            description = "Write only alerts that opened before this time.")
    private Instant to = Instant.MAX;

    @Option(
            names = "--crops",
            paramLabel = "DIR",
            description = "Crop files whose limits to judge by, laid over the site's own.")
    private @Nullable Path crops;

    @Option(names = "--out", paramLabel = "FILE", description = "Where to write; standard output unless said.")
    private @Nullable Path file;

    @Override
    public void run() {
        SiteFolder folder = readSite();
        Crops limits = crops == null ? folder.crops() : SiteReader.crops(folder.path(), crops);
        var silences = new Silences();
        List<Alert> alerts = replay(folder, limits, silences);
        silences.lines().forEach(err()::println);
        Output.write(file, out(), writer -> {
            for (Alert alert : alerts) {
                if (!alert.opened().isBefore(from) && alert.opened().isBefore(to)) {
                    writer.write(AlertJson.line(alert));
                    writer.write('\n');
                }
            }
        });
    }

    private static List<Alert> replay(SiteFolder folder, Crops limits, Silences silences) {
        try (SiteStore store = Stores.toRead(folder)) {
            ReadingSource readings = silences.hearing(store.history().source(folder.site()));
            return Replay.run(folder, limits, store.journal().entries(), readings);
        }
    }
}
