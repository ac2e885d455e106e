package traytender.dashboard.command;

import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import traytender.ingest.store.SiteBackup;

/** Brings a backup back. */
@Command(
        name = "restore",
        description =
                "Brings a backup back into a site folder. What is there is set aside under a dated name, not overwritten;"
                        + " site.yaml and crop files come back only where there are none.")
final class RestoreCommand extends SiteCommand {
    @Parameters(paramLabel = "FILE", description = "The file that backup wrote.")
    private Path file = Path.of("");

    @Override
    public void run() {
        for (Path aside : SiteBackup.restore(site, file, clock())) {
            out().println("set aside: " + aside);
        }
        out().println(site + " restored from " + file);
    }
}
