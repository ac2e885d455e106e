package traytender.ingest.intake;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** The beginning of a payload, fit to be shown. */
final class Preview {
    /** So many bytes are shown. */
    static final int BYTES = 80;
    /** All of a message is kept up to this length, for its fields to be found; a sensor's message is shorter; our choice. */
    static final int MOST = 4096;

    private Preview() {}

    static String of(byte[] payload) {
        byte[] first = payload.length > BYTES ? Arrays.copyOf(payload, BYTES) : payload;
        String text = new String(first, StandardCharsets.UTF_8).replaceAll("\\p{Cntrl}", "\uFFFD");
        return payload.length > BYTES ? text + "..." : text;
    }
}
