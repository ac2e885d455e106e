package traytender.ingest.file;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import traytender.config.site.Site;
import traytender.ingest.store.ImportPositions;
import traytender.ingest.store.ReadingStore;

/**
 * Takes readings in from files: CSV with the columns {@code time,probe,value}, or a SenML JSON pack. Values are raw, as the probe
 * would send them; a file from {@link ReadingExport} comes back by its raw values. A line that cannot be used is reported and left
 * out. An import that was interrupted goes on where it stopped when the same file is imported again, and a reading that is there
 * already changes nothing.
 */
public final class ReadingImport {
    private final Site site;
    private final ReadingStore store;
    private final ImportPositions positions;
    private final Clock clock;

    /**
     * An import into a store.
     *
     * @param clock what is more than 5 minutes after its time is rejected
     */
    public ReadingImport(Site site, ReadingStore store, ImportPositions positions, Clock clock) {
        this.site = site;
        this.store = store;
        this.positions = positions;
        this.clock = clock;
    }

    /**
     * Imports one file; all of its readings are on disk when this returns.
     *
     * @throws ImportException when it cannot be read, or is neither CSV with the needed columns nor SenML
     * @throws traytender.ingest.store.StoreException when the store fails; what was stored until then stays
     */
    public ImportResult read(Path file, ImportListener listener) {
        try (var channel = FileChannel.open(file)) {
            var identity = identity(file);
            var writer = new GroupWriter(store, positions, listener, identity, channel.size());
            var readings = RawReadings.of(site, store, clock);
            var position = positions.of(identity);
            return isSenMl(file)
                    ? new SenMlReader(site, readings, writer).read(stream(channel), position)
                    : new CsvReader(readings, writer).read(channel, position);
        } catch (Rejection e) {
            throw new ImportException(file + ": " + e.reason(), e);
        } catch (IOException e) {
            throw new ImportException(file + ": cannot be read (" + e + ")", e);
        }
    }

    private static InputStream stream(FileChannel channel) {
        return new BufferedInputStream(Channels.newInputStream(channel));
    }

    /** Tells this very content from any other, without reading it: a file that was edited begins anew. */
    private static String identity(Path file) throws IOException {
        return file.toRealPath() + " " + Files.size(file) + " "
                + Files.getLastModifiedTime(file).toMillis();
    }

    /** A SenML pack is a JSON array; no CSV file begins with a bracket. */
    private static boolean isSenMl(Path file) throws IOException {
        try (var in = new BufferedInputStream(Files.newInputStream(file))) {
            var b = in.read();
            while (b == ' ' || b == '\t' || b == '\r' || b == '\n' || b == 0xEF || b == 0xBB || b == 0xBF) {
                b = in.read();
            }
            return b == '[';
        }
    }
}
