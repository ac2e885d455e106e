package traytender.dashboard.command;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import traytender.config.folder.SiteFolder;
import traytender.dashboard.program.Stores;
import traytender.ingest.file.ReadingExport;
import traytender.ingest.store.SiteStore;

/** Writes stored readings out. */
@Command(
        name = "export",
        description = "Writes stored readings out, in order of probe and time; import takes such a file in again.")
final class ExportCommand extends SiteCommand {
    @Option(
            names = "--from",
            required = true,
            paramLabel = "T",
            converter = Rfc3339.class,
            description = "From this time on, inclusive.")
    private Instant from = Instant.MIN;

    @Option(
            names = "--to",
            required = true,
            paramLabel = "T",
            converter = Rfc3339.class,
            description = "Up to this time, exclusive.")
    private Instant to = Instant.MAX;

    @Option(names = "--format", description = "${COMPLETION-CANDIDATES}; csv unless said.")
    private Format format = Format.CSV;

    @Option(names = "--out", paramLabel = "FILE", description = "Where to write; standard output unless said.")
    private @Nullable Path file;

    /** What an export looks like. */
    enum Format {
        CSV,
        SENML;

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Override
    public void run() {
        SiteFolder folder = readSite();
        if (to.isBefore(from)) {
            throw wrongUse("--to " + to + " is before --from " + from + ".");
        }
        try (SiteStore store = Stores.toRead(folder)) {
            var export = new ReadingExport(folder.site(), store.history());
            Output.write(file, out(), writer -> {
                switch (format) {
                    case CSV -> export.csv(from, to, writer);
                    case SENML -> export.senMl(from, to, writer);
                }
            });
        }
    }
}
