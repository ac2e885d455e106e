package traytender.dashboard.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.Result;
import com.google.zxing.ResultPoint;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.net.URI;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.Sowing;

/** Labels as printed: their codes are read back from the drawn page by ZXing, another library than the one that makes them. */
class LabelsTest {
    private static final int DPI = 200;
    private static final URI PAGE = URI.create("http://192.168.1.7:8420/");

    @Test
    void labels_nameTrayAndSowings_andTheirCodesLeadToTheTray() throws Exception {
        var sowings = List.of(
                new Sowing(new CellBlock(1, 4, 1, 16), "tomato", "Copper Lantern", LocalDate.of(2026, 3, 2), 2),
                new Sowing(new CellBlock(5, 8, 1, 8), "pepper", "Long & Meadow", null, null));

        byte[] pdf = LabelsHtml.pdf(List.of(new LabelsHtml.Tray("T01", new Cells(8, 16), sowings)), PAGE);

        try (PDDocument document = Loader.loadPDF(pdf)) {
            assertThat(new PDFTextStripper().getText(document))
                    .contains(
                            "T01",
                            "rows 1-4: Copper Lantern (tomato), sown 2026-03-02",
                            "T01, rows 5-8, columns 1-8: Long & Meadow (pepper)");
            assertThat(codes(new PDFRenderer(document).renderImageWithDPI(0, DPI)))
                    .hasSize(3)
                    .containsOnly("http://192.168.1.7:8420/trays/T01");
        }
    }

    @Test
    void trayNameOfAnyLetters_isEncodedInItsAddress() {
        assertThat(LabelsHtml.address(PAGE, "Tisch 3/ö"))
                .hasToString("http://192.168.1.7:8420/trays/Tisch%203%2F%C3%B6");
    }

    /** Finds a code, paints it over, and looks for the next. */
    private static List<String> codes(BufferedImage page) {
        var codes = new ArrayList<String>();
        while (true) {
            int[] pixels = page.getRGB(0, 0, page.getWidth(), page.getHeight(), null, 0, page.getWidth());
            var source = new RGBLuminanceSource(page.getWidth(), page.getHeight(), pixels);
            try {
                Result found = new QRCodeReader()
                        .decode(new BinaryBitmap(new HybridBinarizer(source)), Map.of(DecodeHintType.TRY_HARDER, true));
                codes.add(found.getText());
                paintOver(page, found.getResultPoints());
            } catch (ReaderException e) {
                return codes;
            }
        }
    }

    private static void paintOver(BufferedImage page, ResultPoint[] points) {
        double[] xs =
                Arrays.stream(points).mapToDouble(ResultPoint::getX).sorted().toArray();
        double[] ys =
                Arrays.stream(points).mapToDouble(ResultPoint::getY).sorted().toArray();
        int margin = (int) (xs[xs.length - 1] - xs[0]) / 3;
        Graphics2D graphics = page.createGraphics();
        graphics.setColor(Color.WHITE);
        graphics.fillRect(
                (int) xs[0] - margin,
                (int) ys[0] - margin,
                (int) (xs[xs.length - 1] - xs[0]) + 2 * margin,
                (int) (ys[ys.length - 1] - ys[0]) + 2 * margin);
        graphics.dispose();
    }
}
