package traytender.dashboard.command;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import traytender.config.folder.SiteFolder;
import traytender.dashboard.program.Stores;
import traytender.ingest.file.ImportResult;
import traytender.ingest.file.JournalImport;
import traytender.ingest.file.ReadingImport;
import traytender.ingest.store.SiteStore;

/** Takes readings and journal entries in from files. */
@Command(
        name = "import",
        description = {
            "Takes readings in from files: CSV with time,probe,value (value raw, as the probe would send it) or SenML JSON.",
            "Lines that cannot be used go to standard error with their number. A file may be imported again: what is there"
                    + " already changes nothing."
        })
final class ImportCommand extends SiteCommand {
    @Parameters(paramLabel = "FILE", arity = "0..*", description = "Files with readings.")
    private List<Path> files = List.of();

    @Option(
            names = "--journal",
            paramLabel = "FILE",
            description = "A file with journal entries: CSV with time,tray,entry,detail.")
    private @Nullable Path journal;

    @Override
    public void run() {
        if (files.isEmpty() && journal == null) {
            throw wrongUse("Name at least one file of readings, or --journal FILE.");
        }
        SiteFolder folder = readSite();
        try (SiteStore store = Stores.toWrite(folder, clock())) {
            store.setAside()
                    .forEach(old ->
                            err().println("A damaged database was set aside as " + old + "; a new one was begun."));
            if (journal != null) {
                importJournal(folder, store, journal);
            }
            for (Path file : files) {
                importReadings(folder, store, file);
            }
        }
    }

    private void importJournal(SiteFolder folder, SiteStore store, Path file) {
        var rejected = new RejectedLines(file, err());
        tell(file, new JournalImport(folder.site(), store.journal()).read(file, rejected), "entries");
    }

    private void importReadings(SiteFolder folder, SiteStore store, Path file) {
        var importing = new ReadingImport(folder.site(), store.readings(), store.importPositions(), clock());
        try (var progress = ImportProgress.of(file, err())) {
            tell(file, importing.read(file, progress), "readings");
        }
    }

    private void tell(Path file, ImportResult result, String what) {
        String resumed = result.resumedAt() == 0
                ? ""
                : ", after the first " + result.resumedAt() + " lines that an earlier import had brought in";
        out().println(file + ": " + result.stored() + " " + what + " stored, " + result.repeated() + " there already, "
                + result.rejected() + " lines rejected" + resumed);
    }
}
