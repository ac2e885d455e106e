package traytender.dashboard.page;

import io.nayuki.qrcodegen.QrCode;
import io.nayuki.qrcodegen.QrCode.Ecc;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** A QR code (ISO/IEC 18004) as rows of modules, 1 for dark, the quiet zone left out; the page draws it. */
final class QrRows {
    private QrRows() {}

    static List<String> of(String text) {
        QrCode code = QrCode.encodeText(text, Ecc.MEDIUM);
        return IntStream.range(0, code.size)
                .mapToObj(y -> IntStream.range(0, code.size)
                        .mapToObj(x -> code.getModule(x, y) ? "1" : "0")
                        .collect(Collectors.joining()))
                .toList();
    }
}
