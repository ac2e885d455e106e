package traytender.ingest.nursery;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import traytender.config.journal.JournalCsv;
import traytender.config.journal.JournalEntry;
import traytender.ingest.nursery.probe.SimulatedMessage;
import traytender.ingest.nursery.probe.SimulatedReading;

/** What a simulated nursery sent and its grower wrote, as the files that {@code import} takes. */
public final class NurseryFiles {
    private NurseryFiles() {}

    /**
     * Writes {@code readings.csv} ({@code time,probe,value}, in order of arrival, value as the probe sends it) and {@code journal.csv}.
     *
     * @throws UncheckedIOException when the folder cannot be written
     */
    public static void write(Path folder, List<SimulatedMessage> messages, List<JournalEntry> journal) {
        try (Writer readings = Files.newBufferedWriter(folder.resolve("readings.csv"));
                Writer entries = Files.newBufferedWriter(folder.resolve("journal.csv"))) {
            readings.write("time,probe,value\n");
            for (SimulatedMessage message : messages) {
                for (SimulatedReading reading : message.readings()) {
                    readings.write(reading.time() + "," + reading.probe() + "," + reading.raw() + "\n");
                }
            }
            JournalCsv.write(journal, entries);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write readings and journal to " + folder, e);
        }
    }
}
