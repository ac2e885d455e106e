package traytender.dashboard.report;

import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;

/** Well-formed HTML turned into a PDF. */
final class Pdf {
    private Pdf() {}

    static byte[] of(String html) throws IOException {
        // Its own log would go past ours to standard error.
        XRLog.setLoggingEnabled(false);
        var bytes = new ByteArrayOutputStream();
        new PdfRendererBuilder().withHtmlContent(html, null).toStream(bytes).run();
        return bytes.toByteArray();
    }
}
