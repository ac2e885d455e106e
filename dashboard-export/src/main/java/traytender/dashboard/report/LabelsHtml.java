package traytender.dashboard.report;

import io.nayuki.qrcodegen.QrCode;
import io.nayuki.qrcodegen.QrCode.Ecc;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.List;
import javax.imageio.ImageIO;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.Sowing;

/**
 * Labels to print and cut out on A4: for each tray a large one, for each sowing a strip to stand in its rows; on each a QR code
 * (ISO/IEC 18004) to the tray's page.
 */
public final class LabelsHtml {
    private static final int PIXELS_A_MODULE = 6;
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
            @page { size: A4; margin: 12mm; }
            body { font-family: Helvetica, Arial, sans-serif; color: #000; margin: 0; font-size: 11pt; }
            .label { border: 0.3mm dashed #777; width: 180mm; page-break-inside: avoid; margin-bottom: 3mm; }
            .label td { padding: 2mm 3mm; vertical-align: middle; }
            .code { width: 34mm; } .code img { width: 32mm; height: 32mm; }
            .strip .code { width: 20mm; } .strip .code img { width: 18mm; height: 18mm; }
            .name { font-size: 40pt; font-weight: bold; } .strip .name { font-size: 15pt; }
            </style>
            </head>
            <body>
            """;

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
    public static byte[] pdf(List<Tray> trays, URI page) throws IOException {
        return Pdf.of(page(trays, page));
    }

    private static String page(List<Tray> trays, URI page) throws IOException {
        var html = new StringBuilder(HEAD);
        for (Tray tray : trays) {
            String code = code(address(page, tray.id()));
            html.append(label(
                    "label",
                    tray.id(),
                    tray.sowings().stream()
                            .map(sowing -> words(sowing, tray.cells()))
                            .toList(),
                    code));
            for (Sowing sowing : tray.sowings()) {
                html.append(label(
                        "label strip",
                        sowing.variety(),
                        List.of(tray.id() + ", " + words(sowing, tray.cells())),
                        code));
            }
        }
        return html.append("</body>\n</html>\n").toString();
    }

    /** Where a tray's page is. */
    static URI address(URI page, String tray) {
        return page.resolve(
                "/trays/" + URLEncoder.encode(tray, StandardCharsets.UTF_8).replace("+", "%20"));
    }

    private static String label(String kind, String name, List<String> lines, String code) {
        var label = new StringBuilder("<table class=\"")
                .append(kind)
                .append("\"><tr><td class=\"code\"><img alt=\"\" src=\"")
                .append(code)
                .append("\"/></td><td><span class=\"name\">")
                .append(Escaped.of(name))
                .append("</span>");
        lines.forEach(line -> label.append("<br/>").append(Escaped.of(line)));
        return label.append("</td></tr></table>\n").toString();
    }

    private static String words(Sowing sowing, Cells cells) {
        CellBlock block = sowing.block();
        String columns = block.firstColumn() == 1 && block.lastColumn() == cells.columns()
                ? ""
                : ", columns " + block.firstColumn() + "-" + block.lastColumn();
        return "rows " + block.firstRow() + "-" + block.lastRow() + columns + ": " + sowing.variety() + " ("
                + sowing.crop() + ")" + (sowing.sown() == null ? "" : ", sown " + sowing.sown());
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
