package traytender.ingest.file;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;

/**
 * Which column of a readings file holds what, by its header line.
 *
 * @param raw the {@code raw} column of an exported file where there is one, else {@code value}
 * @param marks -1 when there is none
 */
record CsvColumns(int time, int probe, int raw, int marks) {
    /** The columns a header names, in whatever order and with whatever others between. */
    static CsvColumns of(String header) throws Rejection {
        var names = split(header).stream()
                .map(name -> name.strip().toLowerCase(Locale.ROOT))
                .toList();
        var raw = names.contains("raw") ? names.indexOf("raw") : names.indexOf("value");
        var columns = new CsvColumns(names.indexOf("time"), names.indexOf("probe"), raw, names.indexOf("marks"));
        if (columns.time < 0 || columns.probe < 0 || raw < 0) {
            throw new Rejection(
                    "the first line must name the columns time,probe,value; it is " + Rejection.quoted(header));
        }
        return columns;
    }

    /** How many columns a line needs at least. */
    int needed() {
        return 1 + Math.max(raw, Math.max(time, probe));
    }

    /** The fields of one line. Only a line with quotes needs a real CSV parser. */
    static List<String> split(String line) throws Rejection {
        if (line.indexOf('"') >= 0) {
            return splitQuoted(line);
        }
        var fields = new ArrayList<String>(5);
        int from = 0;
        for (int comma = line.indexOf(','); comma >= 0; comma = line.indexOf(',', from)) {
            fields.add(line.substring(from, comma));
            from = comma + 1;
        }
        fields.add(line.substring(from));
        return fields;
    }

    private static List<String> splitQuoted(String line) throws Rejection {
        try (var parser = CSVParser.parse(line, CSVFormat.RFC4180)) {
            var records = parser.getRecords();
            return records.isEmpty() ? List.of() : records.get(0).toList();
        } catch (IOException | RuntimeException e) {
            throw new Rejection("its quotes do not match: " + Rejection.quoted(line));
        }
    }
}
