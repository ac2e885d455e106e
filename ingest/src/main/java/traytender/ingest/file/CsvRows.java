package traytender.ingest.file;

import java.io.IOException;
import java.io.Writer;
import org.apache.commons.csv.CSVFormat;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;

/** One probe's readings as CSV lines. */
final class CsvRows implements ReadingExport.Rows {
    private final String probe;
    private final Writer out;

    CsvRows(Probe probe, Writer out) {
        // The id is the only field that may need quotes, and the same on every line.
        this.probe = CSVFormat.RFC4180.format(probe.id());
        this.out = out;
    }

    @Override
    public void write(Reading reading) throws IOException {
        out.write(reading.time() + "," + probe + "," + Numbers.text(reading.value()) + "," + Numbers.text(reading.raw())
                + "," + String.join(" ", Marks.words(reading.marks())) + "\n");
    }
}
