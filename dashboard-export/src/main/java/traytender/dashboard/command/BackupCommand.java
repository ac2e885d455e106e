package traytender.dashboard.command;

import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import traytender.ingest.store.SiteBackup;

/** Copies a site into one file. */
@Command(
        name = "backup",
        description = "Writes the site, its readings and its journal into one zip file, also while the program runs."
                + " Passwords and keys are left out.")
final class BackupCommand extends SiteCommand {
    @Parameters(paramLabel = "FILE", description = "The file to write; replaced when it is there already.")
    private Path file = Path.of("");

    @Override
    public void run() {
        readSite();
        SiteBackup.write(site, file);
        out().println(file + " written");
    }
}
