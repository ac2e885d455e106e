package traytender.ingest.file;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.function.Consumer;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.ingest.store.ReadingHistory;
import traytender.ingest.store.Times;

/**
 * Writes stored readings out, in order of probe and time, as CSV or as a SenML pack. Both carry the raw values beside the
 * calibrated ones, so that {@link ReadingImport} brings them back as they were.
 */
public final class ReadingExport {
    private final Site site;
    private final ReadingHistory store;

    public ReadingExport(Site site, ReadingHistory store) {
        this.site = site;
        this.store = store;
    }

    /**
     * Writes {@code time,probe,value,raw,marks}: times in UTC with milliseconds where not zero, values in the unit of the probe's
     * quantity, marks as words parted by a space.
     *
     * @param from inclusive
     * @param to exclusive
     * @return how many readings were written
     */
    public long csv(Instant from, Instant to, Writer out) throws IOException {
        out.write("time,probe,value,raw,marks\n");
        return each(from, to, probe -> new CsvRows(probe, out));
    }

    /**
     * Writes one SenML JSON pack (RFC 8428), a record a reading, named by the probe's id.
     *
     * @param from inclusive
     * @param to exclusive
     * @return how many readings were written
     */
    public long senMl(Instant from, Instant to, Writer out) throws IOException {
        try (var pack = new SenMlPack(out)) {
            return each(from, to, pack::recordsOf);
        }
    }

    /** What writes one probe's readings. */
    @FunctionalInterface
    interface Rows {
        void write(Reading reading) throws IOException;
    }

    private interface RowsOfProbe {
        Rows of(Probe probe);
    }

    private long each(Instant from, Instant to, RowsOfProbe rows) throws IOException {
        var written = new long[1];
        try {
            var fromMs = Times.ceilingMs(from);
            var toMs = Times.ceilingMs(to);
            for (var probe : site.probes().stream()
                    .sorted(Comparator.comparing(Probe::id))
                    .toList()) {
                var rowsOfProbe = rows.of(probe);
                store.source(List.of(probe)).scan(fromMs, toMs, unchecked(reading -> {
                    rowsOfProbe.write(reading);
                    written[0]++;
                }));
            }
        } catch (UncheckedIOException e) {
            throw e.getCause();
        }
        return written[0];
    }

    private static Consumer<Reading> unchecked(Rows rows) {
        return reading -> {
            try {
                rows.write(reading);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        };
    }
}
