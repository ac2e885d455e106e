package traytender.ingest.file;

import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.util.List;
import traytender.config.reading.Marks;
import traytender.ingest.store.RawReading;

/** Reads a CSV file of readings line by line. */
final class CsvReader {
    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private final RawReadings readings;
    private final GroupWriter writer;

    CsvReader(RawReadings readings, GroupWriter writer) {
        this.readings = readings;
        this.writer = writer;
    }

    /**
     * Reads the file.
     *
     * @param position 0, or the byte at which an interrupted import would go on
     * @throws Rejection when its first line does not name the columns
     */
    ImportResult read(FileChannel channel, long position) throws IOException, Rejection {
        var lines = new LineReader(Channels.newInputStream(channel), 0, 0);
        var columns = CsvColumns.of(header(lines));
        var passedOver = passOver(lines, position);
        for (var line = lines.next(); line != null; line = lines.next()) {
            take(line, lines, columns);
            writer.storeWhenFull(lines.offset(), lines.offset());
        }
        return writer.finish(passedOver);
    }

    private static String header(LineReader lines) throws IOException {
        var line = lines.next();
        if (line == null) {
            return "";
        }
        return line.startsWith(BYTE_ORDER_MARK) ? line.substring(1) : line;
    }

    /** Lines before the position are read without being looked at, so that later ones keep their numbers. */
    private static long passOver(LineReader lines, long position) throws IOException {
        var from = lines.number();
        for (var more = true; more && lines.offset() < position; ) {
            more = lines.next() != null;
        }
        return lines.number() - from;
    }

    private void take(String line, LineReader lines, CsvColumns columns) {
        if (line.isBlank()) {
            return;
        }
        try {
            if (lines.isTooLong()) {
                throw new Rejection("the line is longer than " + LineReader.LONGEST + " bytes");
            }
            writer.add(reading(CsvColumns.split(line), columns));
        } catch (Rejection e) {
            writer.reject(lines.number(), e.reason());
        }
    }

    private RawReading reading(List<String> fields, CsvColumns columns) throws Rejection {
        if (fields.size() < columns.needed()) {
            throw new Rejection("it has " + fields.size() + " fields, " + columns.needed() + " are needed");
        }
        var probe = readings.probe(fields.get(columns.probe()).strip());
        var timeMs = readings.timeMs(fields.get(columns.time()).strip());
        var hasMarks = columns.marks() >= 0 && columns.marks() < fields.size();
        var marks = hasMarks ? RawReadings.marks(fields.get(columns.marks())) : Marks.NONE;
        return readings.reading(probe, timeMs, fields.get(columns.raw()).strip(), marks);
    }
}
