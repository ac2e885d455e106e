package traytender.ingest.file;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import traytender.config.journal.JournalCsv;
import traytender.config.site.Site;
import traytender.ingest.store.JournalStore;

/** Takes journal entries in from a CSV file with the columns {@code time,tray,entry,detail}. */
public final class JournalImport {
    private final Site site;
    private final JournalStore journal;

    public JournalImport(Site site, JournalStore journal) {
        this.site = site;
        this.journal = journal;
    }

    /**
     * Imports one file as one group; an entry that is there already changes nothing.
     *
     * @throws ImportException when it cannot be read
     * @throws traytender.ingest.store.StoreException when the store fails; nothing of the file is stored then
     */
    public ImportResult read(Path file, ImportListener listener) {
        var csv = parse(file);
        csv.rejected().forEach(line -> listener.rejected(line.line(), line.reason()));
        var added = journal.addAll(csv.entries());
        return new ImportResult(
                added, csv.entries().size() - added, csv.rejected().size(), 0);
    }

    private JournalCsv parse(Path file) {
        // Not Files.newBufferedReader: that one stops at the first byte that is not UTF-8.
        try (var in = new BufferedReader(new InputStreamReader(Files.newInputStream(file), UTF_8))) {
            return JournalCsv.read(in, tray -> site.tray(tray).isPresent());
        } catch (IOException | UncheckedIOException e) {
            throw new ImportException(file + ": cannot be read (" + e.getMessage() + ")", e);
        }
    }
}
