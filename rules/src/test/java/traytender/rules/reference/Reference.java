package traytender.rules.reference;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/** Published values, from the test resources; their README says what each file holds. */
public final class Reference {
    private Reference() {}

    /** The rows of a file, by the names in its first line. */
    public static List<CSVRecord> rows(String file) {
        var stream = Objects.requireNonNull(Reference.class.getResourceAsStream("/reference/" + file), file);
        var format = CSVFormat.DEFAULT
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get();
        try (var reader = new InputStreamReader(stream, StandardCharsets.UTF_8);
                var parser = format.parse(reader)) {
            return parser.getRecords();
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    /** A number of a row. */
    public static double number(CSVRecord row, String column) {
        return Double.parseDouble(row.get(column));
    }
}
