package traytender.dashboard.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.Result;
import com.google.zxing.ResultPoint;
import com.google.zxing.common.GlobalHistogramBinarizer;
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
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.Sowing;

/** Labels as printed: their codes are read back from the drawn page by ZXing, another library than the one that makes them. */
class LabelsTest {
    private static final int DPI = 200;
    /** The coarsest that is common (common practice, no source). */
    private static final int LABEL_PRINTER_DPI = 203;

    private static final URI PAGE = URI.create("http://192.168.1.7:8420/");

    @Test
    void labels_nameTrayAndSowings_andTheirCodesLeadToTheTray() throws Exception {
        var sowings = List.of(
                new Sowing(new CellBlock(1, 4, 1, 16), "tomato", "Copper Lantern", LocalDate.of(2026, 3, 2), 2),
                new Sowing(new CellBlock(5, 8, 1, 8), "pepper", "Long & Meadow", null, null));

        byte[] pdf =
                LabelsHtml.pdf(List.of(new LabelsHtml.Tray("T01", new Cells(8, 16), sowings)), PAGE, LabelPaper.A4);

        try (PDDocument document = Loader.loadPDF(pdf)) {
            assertThat(new PDFTextStripper().getText(document))
                    .contains(
                            "T01",
                            "rows 1-4: Copper Lantern (tomato, sown 2026-03-02)",
                            "T01, rows 5-8, columns 1-8: pepper");
            assertThat(codes(new PDFRenderer(document).renderImageWithDPI(0, DPI)))
                    .hasSize(3)
                    .containsOnly("http://192.168.1.7:8420/trays/T01");
        }
    }

    /** Trays of the common formats, with names as long and of such letters as growers have them. */
    @ParameterizedTest
    @ValueSource(strings = {"A4", "62x29", "57x32", "100x20"})
    void labelsOfAllFormats_areWholeAndTheirCodesRead_onEachPaper(String word) throws Exception {
        LabelPaper paper = LabelPaper.of(word).orElseThrow();
        List<LabelsHtml.Tray> trays = List.of(
                tray("T50", 5, 10, "Żółta Růžová Ελλάς Жёлтая"),
                tray("T72", 6, 12, "An Uncommonly Long-Named Late Winter Standard Improved Selection"),
                tray("T98", 7, 14, "Donaudampfschifffahrtsgesellschaftskapitänspatent"),
                tray("T128", 8, 16, "Copper Lantern", "Long Meadow", "Row Trial 3", "Row Trial 4"),
                tray("Seedling tray on the bench by the door", 10, 20, "Row Trial 1", "Row Trial 2"));

        try (PDDocument document = Loader.loadPDF(LabelsHtml.pdf(trays, PAGE, paper))) {
            String words = new PDFTextStripper().getText(document).replaceAll("\\s", "");
            for (LabelsHtml.Tray tray : trays) {
                assertThat(words).contains(tray.id().replace(" ", ""));
                tray.sowings()
                        .forEach(sowing ->
                                assertThat(words).contains(sowing.variety().replace(" ", "")));
            }
            var codes = new ArrayList<String>();
            for (int page = 0; page < document.getNumberOfPages(); page++) {
                BufferedImage drawn = new PDFRenderer(document).renderImageWithDPI(page, LABEL_PRINTER_DPI);
                codes.addAll(
                        paper.isSheet()
                                ? codes(drawn)
                                : List.of(read(source(drawn)).getText()));
            }
            assertThat(codes).hasSize(14).contains("http://192.168.1.7:8420/trays/T128");
            assertThat(document.getPage(0).getMediaBox().getWidth() * 25.4 / 72)
                    .isCloseTo(paper.widthMm(), within(0.1));
            if (!paper.isSheet()) {
                assertThat(document.getNumberOfPages()).isEqualTo(14);
            }
        }
    }

    private static LabelsHtml.Tray tray(String id, int rows, int columns, String... varieties) {
        var sowings = new ArrayList<Sowing>();
        for (int i = 0; i < varieties.length; i++) {
            sowings.add(new Sowing(
                    new CellBlock(i + 1, i + 1, 1, columns), "tomato", varieties[i], LocalDate.of(2026, 3, 2), 1));
        }
        return new LabelsHtml.Tray(id, new Cells(rows, columns), sowings);
    }

    @ParameterizedTest
    @ValueSource(strings = {"A5", "62", "62x", "19x62", "10x10", "301x40", "29x90", "62x29mm"})
    void otherPapers_areNone(String word) {
        assertThat(LabelPaper.of(word)).isEmpty();
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
            try {
                Result found = read(source(page));
                codes.add(found.getText());
                paintOver(page, found.getResultPoints());
            } catch (ReaderException e) {
                return codes;
            }
        }
    }

    private static RGBLuminanceSource source(BufferedImage page) {
        int[] pixels = page.getRGB(0, 0, page.getWidth(), page.getHeight(), null, 0, page.getWidth());
        return new RGBLuminanceSource(page.getWidth(), page.getHeight(), pixels);
    }

    /** As a phone does, which looks at a code in more than one way before it gives up. */
    private static Result read(RGBLuminanceSource source) throws ReaderException {
        Map<DecodeHintType, ?> hard = Map.of(DecodeHintType.TRY_HARDER, true);
        try {
            return new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(source)), hard);
        } catch (ReaderException e) {
            return new QRCodeReader().decode(new BinaryBitmap(new GlobalHistogramBinarizer(source)), hard);
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
