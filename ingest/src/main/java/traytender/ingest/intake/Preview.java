package traytender.ingest.intake;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** The beginning of a payload, fit to be shown. */
final class Preview {
    private static final int BYTES = 80;

    private Preview() {}

    static String of(byte[] payload) {
        byte[] first = payload.length > BYTES ? Arrays.copyOf(payload, BYTES) : payload;
        String text = new String(first, StandardCharsets.UTF_8).replaceAll("\\p{Cntrl}", "\uFFFD");
        return payload.length > BYTES ? text + "..." : text;
    }
}
