package traytender.dashboard.report;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;

/**
 * Well-formed HTML turned into a PDF. The font family {@code Labels} is ours, {@link Typeface}; those of PDF itself have the letters of
 * the west of Europe only.
 */
final class Pdf {
    private Pdf() {}

    static byte[] of(String html) throws IOException {
        // Its own log would go past ours to standard error.
        XRLog.setLoggingEnabled(false);
        var bytes = new ByteArrayOutputStream();
        new PdfRendererBuilder()
                .useFont(Typeface.REGULAR::open, "Labels", 400, FontStyle.NORMAL, true)
                .useFont(Typeface.BOLD::open, "Labels", 700, FontStyle.NORMAL, true)
                .withHtmlContent(html, null)
                .toStream(bytes)
                .run();
        return bytes.toByteArray();
    }
}
