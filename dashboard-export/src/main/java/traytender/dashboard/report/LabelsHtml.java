package traytender.dashboard.report;

import io.nayuki.qrcodegen.QrCode;
import io.nayuki.qrcodegen.QrCode.Ecc;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.Sowing;

/**
 * Labels to print: for each tray a large one, for each sowing a strip to stand in its rows; on each a QR code (ISO/IEC 18004) to the
 * tray's page. On sheets to cut out, or one a page for a label printer.
 */
public final class LabelsHtml {
    private static final int PIXELS_A_MODULE = 12;
    /** Light modules around the code, as the standard asks. */
    private static final int QUIET_ZONE = 4;

    private static final String HEAD = """
            <?xml version="1.0" encoding="UTF-8"?>
            <!DOCTYPE html>
            <html xmlns="http://www.w3.org/1999/xhtml" lang="en">
            <head>
            <meta charset="UTF-8"/>
            <title>Labels</title>
            <style>
            body { font-family: Labels, sans-serif; color: #000; margin: 0; font-size: 11pt; }
            .words { word-wrap: break-word; }
            .name { font-weight: bold; line-height: 1.2; }
            """;

    private static final String ON_SHEETS = """
            @page { size: %s; margin: 12mm; }
            .label { border: 0.3mm dashed #777; width: 180mm; table-layout: fixed; page-break-inside: avoid; margin-bottom: 3mm; }
            .label td { padding: 2mm 3mm; vertical-align: middle; }
            .code { width: 34mm; } .code img { width: 32mm; height: 32mm; }
            .strip .code { width: 24mm; } .strip .code img { width: 22mm; height: 22mm; }
            .name { font-size: 40pt; } .strip .name { font-size: 15pt; }
            </style>
            </head>
            <body>
            """;

    private static final String ONE_A_PAGE = """
            @page { size: %s; margin: %smm; }
            .label { width: 100%%; table-layout: fixed; border-collapse: collapse; page-break-inside: avoid; page-break-after: always; }
            .label:last-child { page-break-after: auto; }
            .label td { padding: 0; vertical-align: middle; line-height: 1.2; }
            </style>
            </head>
            <body>
            """;

    /** So many sowings are named on a tray's own label; each has its strip too. */
    private static final int MOST_LINES = 12;

    private LabelsHtml() {}

    /** A tray with what stands in it now. */
    public record Tray(String id, Cells cells, List<Sowing> sowings) {
        public Tray {
            sowings = List.copyOf(sowings);
        }
    }

    /**
     * The labels of some trays as a PDF.
     *
     * @param page where the program's page is
     */
    public static byte[] pdf(List<Tray> trays, URI page, LabelPaper paper) throws IOException {
        return Pdf.of(page(trays, page, paper));
    }

    private static String page(List<Tray> trays, URI page, LabelPaper paper) throws IOException {
        var html = new StringBuilder(HEAD)
                .append(
                        paper.isSheet()
                                ? ON_SHEETS.formatted(paper.css())
                                : ONE_A_PAGE.formatted(paper.css(), FittedLabel.MARGIN_MM));
        for (Tray tray : trays) {
            String code = code(address(page, tray.id()));
            html.append(label(paper, "label", tray.id(), sown(tray), code));
            for (Sowing sowing : tray.sowings()) {
                html.append(label(paper, "label strip", sowing.variety(), List.of(strip(tray, sowing)), code));
            }
        }
        return html.append("</body>\n</html>\n").toString();
    }

    private static List<String> sown(Tray tray) {
        List<String> lines = tray.sowings().stream()
                .map(sowing -> place(sowing, tray.cells()) + ": " + sowing.variety() + " (" + what(sowing) + ")")
                .toList();
        if (lines.size() <= MOST_LINES) {
            return lines;
        }
        var first = new ArrayList<>(lines.subList(0, MOST_LINES - 1));
        first.add("and " + (lines.size() - first.size()) + " more");
        return first;
    }

    private static String strip(Tray tray, Sowing sowing) {
        return tray.id() + ", " + place(sowing, tray.cells()) + ": " + what(sowing);
    }

    /** Where a tray's page is. */
    static URI address(URI page, String tray) {
        return page.resolve(
                "/trays/" + URLEncoder.encode(tray, StandardCharsets.UTF_8).replace("+", "%20"));
    }

    private static String label(LabelPaper paper, String kind, String name, List<String> all, String code) {
        if (paper.isSheet()) {
            return label(kind, "", "", "", name, "", all, code);
        }
        FittedLabel fitted = FittedLabel.of(paper, name, all);
        String side = String.format(Locale.ROOT, "%.1fmm", fitted.codeMm());
        return label(
                kind,
                "width: " + side + "; padding-right: " + FittedLabel.GAP_MM + "mm",
                "width: " + side + "; height: " + side,
                "font-size: " + FittedLabel.pt(fitted.linePt()),
                name,
                "font-size: " + FittedLabel.pt(fitted.namePt()),
                fitted.lines(),
                code);
    }

    private static String label(
            String kind,
            String codeStyle,
            String pictureStyle,
            String wordsStyle,
            String name,
            String nameStyle,
            List<String> lines,
            String code) {
        String words = lines.stream().map(Escaped::of).collect(Collectors.joining("<br/>"));
        return """
                <table class="%s"><tr><td class="code" style="%s"><img alt="" style="%s" src="%s"/></td><td class="words" style="%s">\
                <div class="name" style="%s">%s</div>%s</td></tr></table>
                """.formatted(kind, codeStyle, pictureStyle, code, wordsStyle, nameStyle, Escaped.of(name), words);
    }

    private static String place(Sowing sowing, Cells cells) {
        CellBlock block = sowing.block();
        boolean isWhole = block.firstColumn() == 1 && block.lastColumn() == cells.columns();
        return range("row", block.firstRow(), block.lastRow())
                + (isWhole ? "" : ", " + range("column", block.firstColumn(), block.lastColumn()));
    }

    private static String range(String what, int first, int last) {
        return first == last ? what + " " + first : what + "s " + first + "-" + last;
    }

    private static String what(Sowing sowing) {
        return sowing.crop().replace('-', ' ') + (sowing.sown() == null ? "" : ", sown " + sowing.sown());
    }

    /** A QR code as a picture in a data address; error correction M, for a label that gets wet and dirty. */
    private static String code(URI address) throws IOException {
        QrCode code = QrCode.encodeText(address.toString(), Ecc.MEDIUM);
        int side = (code.size + 2 * QUIET_ZONE) * PIXELS_A_MODULE;
        var picture = new BufferedImage(side, side, BufferedImage.TYPE_BYTE_BINARY);
        for (int y = 0; y < side; y++) {
            for (int x = 0; x < side; x++) {
                boolean dark = code.getModule(x / PIXELS_A_MODULE - QUIET_ZONE, y / PIXELS_A_MODULE - QUIET_ZONE);
                picture.setRGB(x, y, dark ? 0x000000 : 0xffffff);
            }
        }
        var png = new ByteArrayOutputStream();
        ImageIO.write(picture, "png", png);
        return "data:image/png;base64," + Base64.getEncoder().encodeToString(png.toByteArray());
    }
}
