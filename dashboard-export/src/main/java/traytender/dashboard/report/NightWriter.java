package traytender.dashboard.report;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import traytender.config.site.Quantity;
import traytender.config.site.Site;
import traytender.dashboard.record.Json;
import traytender.dashboard.record.NightJson;
import traytender.ingest.file.AtomicFile;
import traytender.rules.night.NightReport;

/** Writes a night's report in the form that the file's ending asks for. */
public final class NightWriter {
    private NightWriter() {}

    /** The forms a report can have. */
    public enum Form {
        HTML,
        CSV,
        JSON,
        PDF;

        /** The form a file's name asks for; HTML for any ending that is not known. */
        public static Form of(Path file) {
            String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
            for (Form form : values()) {
                if (name.endsWith("." + form.name().toLowerCase(Locale.ROOT))) {
                    return form;
                }
            }
            return HTML;
        }
    }

    /** The report as HTML, UTF-8. */
    public static byte[] html(Site site, NightReport report) {
        return new NightHtml(site, report).page().getBytes(StandardCharsets.UTF_8);
    }

    /** The report as CSV. */
    public static String csv(NightReport report) throws IOException {
        var out = new StringWriter();
        NightCsv.write(report, out);
        return out.toString();
    }

    /** The report as PDF. */
    public static byte[] pdf(Site site, NightReport report) throws IOException {
        return Pdf.of(new NightHtml(site, report).page());
    }

    /** The night in a few sentences: when it was, what was foretold, and the coldest and warmest places. */
    public static List<String> sentences(Site site, NightReport report) {
        return new NightHtml(site, report).sentences();
    }

    /** A value in words, in the site's scale. */
    public static String value(Site site, Quantity quantity, double value) {
        return NightHtml.value(site, quantity, value);
    }

    /**
     * Writes the report to a file, whole or not at all.
     *
     * @throws IOException when it cannot be written
     */
    public static void write(Site site, NightReport report, Path file) throws IOException {
        byte[] bytes = switch (Form.of(file)) {
            case HTML -> html(site, report);
            case CSV -> csv(report).getBytes(StandardCharsets.UTF_8);
            case JSON -> (Json.write(NightJson.of(report)) + "\n").getBytes(StandardCharsets.UTF_8);
            case PDF -> pdf(site, report);
        };
        AtomicFile.write(file, bytes);
    }
}
