package traytender.dashboard.report;

import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
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

    /** Writes the report as HTML. */
    public static void html(Site site, NightReport report, Writer out) throws IOException {
        out.write(new NightHtml(site, report).page());
    }

    /**
     * Writes the report to a file, whole or not at all.
     *
     * @throws IOException when it cannot be written
     */
    public static void write(Site site, NightReport report, Path file) throws IOException {
        switch (Form.of(file)) {
            case HTML -> AtomicFile.write(file, out -> html(site, report, out));
            case CSV -> AtomicFile.write(file, out -> NightCsv.write(report, out));
            case JSON -> AtomicFile.write(file, out -> out.write(Json.write(NightJson.of(report)) + "\n"));
            case PDF -> pdf(site, report, file);
        }
    }

    private static void pdf(Site site, NightReport report, Path file) throws IOException {
        // Its own log would go past ours to standard error.
        XRLog.setLoggingEnabled(false);
        var bytes = new ByteArrayOutputStream();
        new PdfRendererBuilder()
                .withHtmlContent(new NightHtml(site, report).page(), null)
                .toStream(bytes)
                .run();
        Path part = file.resolveSibling(file.getFileName() + ".part");
        try {
            Files.write(part, bytes.toByteArray());
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
    }
}
