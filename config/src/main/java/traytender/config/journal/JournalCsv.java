package traytender.config.journal;

import java.io.IOException;
import java.io.PushbackReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.apache.commons.csv.CSVRecord;

/**
 * The journal as a CSV file: {@code time,tray,entry,detail} with RFC 3339 times. A line that cannot be used is reported with
 * its number and reason and the others are read all the same; a detail never makes a line unusable.
 *
 * @param entries in the file's order
 * @param rejected in the file's order
 */
public record JournalCsv(List<JournalEntry> entries, List<Rejected> rejected) {
    private static final List<String> HEADER = List.of("time", "tray", "entry", "detail");
    private static final int BYTE_ORDER_MARK = 0xFEFF;

    /**
     * A line that was left out.
     *
     * @param line its number in the file, from 1, the header counted
     * @param reason what is wrong with it
     */
    public record Rejected(long line, String reason) {}

    public JournalCsv {
        entries = List.copyOf(entries);
        rejected = List.copyOf(rejected);
    }

    /**
     * Reads a journal whose trays are not known beforehand.
     *
     * @throws UncheckedIOException when the file cannot be read
     */
    public static JournalCsv read(Reader in) {
        return read(in, tray -> true);
    }

    /**
     * Reads a journal; a line about a tray that is not known is rejected.
     *
     * @throws UncheckedIOException when the file cannot be read
     */
    public static JournalCsv read(Reader in, Predicate<String> knownTray) {
        var entries = new ArrayList<JournalEntry>();
        var rejected = new ArrayList<Rejected>();
        try (var parser = CSVFormat.RFC4180
                .builder()
                .setIgnoreEmptyLines(true)
                .setTrim(true)
                .setLenientEof(true)
                .setTrailingData(true)
                .get()
                .parse(withoutByteOrderMark(in))) {
            long line = 1;
            for (CSVRecord row : parser) {
                // A quoted field may span lines: the row starts where the previous one ended.
                take(row, Math.max(line, parser.getCurrentLineNumber()), knownTray, entries, rejected);
                line = parser.getCurrentLineNumber() + 1;
            }
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
        return new JournalCsv(entries, rejected);
    }

    /**
     * Writes entries so that {@link #read(Reader)} gives them back.
     *
     * @throws UncheckedIOException when the file cannot be written
     */
    public static void write(List<JournalEntry> entries, Appendable out) {
        try {
            var printer = new CSVPrinter(out, CSVFormat.RFC4180);
            printer.printRecord(HEADER);
            for (JournalEntry entry : entries) {
                printer.printRecord(entry.time(), entry.tray(), entry.kind().word(), entry.detailText());
            }
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    private static void take(
            CSVRecord row,
            long line,
            Predicate<String> knownTray,
            List<JournalEntry> entries,
            List<Rejected> rejected) {
        if (row.getRecordNumber() == 1 && isHeader(row)) {
            return;
        }
        try {
            entries.add(entry(row, knownTray));
        } catch (IllegalArgumentException wrong) {
            rejected.add(new Rejected(line, String.valueOf(wrong.getMessage())));
        }
    }

    private static boolean isHeader(CSVRecord row) {
        return row.get(0).toLowerCase(Locale.ROOT).equals(HEADER.get(0));
    }

    private static JournalEntry entry(CSVRecord row, Predicate<String> knownTray) {
        if (row.size() < 3) {
            throw new IllegalArgumentException("has " + row.size() + " columns; right is time,tray,entry,detail");
        }
        Instant time = time(row.get(0));
        if (row.get(1).isEmpty() || !knownTray.test(row.get(1))) {
            throw new IllegalArgumentException("no tray named \"" + row.get(1) + "\" in the site file");
        }
        EntryKind kind = EntryKind.ofWord(row.get(2).toLowerCase(Locale.ROOT))
                .orElseThrow(() -> new IllegalArgumentException(
                        "no entry named \"" + row.get(2) + "\"; right is one of " + kinds()));
        // A comma in an unquoted detail is the grower's, not a fifth column.
        String detail = row.stream().skip(3).collect(Collectors.joining(","));
        return JournalEntry.of(time, row.get(1), kind, detail);
    }

    private static Instant time(String text) {
        try {
            return OffsetDateTime.parse(text.replace(' ', 'T')).toInstant();
        } catch (DateTimeException wrong) {
            throw new IllegalArgumentException(
                    "\"" + text + "\" is no time; right is RFC 3339 with its offset, such as 2026-03-14T05:41:00Z",
                    wrong);
        }
    }

    private static String kinds() {
        return Stream.of(EntryKind.values()).map(EntryKind::word).collect(Collectors.joining(", "));
    }

    private static Reader withoutByteOrderMark(Reader in) throws IOException {
        var pushback = new PushbackReader(in);
        int first = pushback.read();
        if (first >= 0 && first != BYTE_ORDER_MARK) {
            pushback.unread(first);
        }
        return pushback;
    }
}
