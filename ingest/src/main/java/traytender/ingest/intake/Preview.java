package traytender.ingest.intake;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/** The beginning of a payload, fit to be shown. */
final class Preview {
    private static final int BYTES = 80;
    /** A sensor's message is shorter; our choice. */
    private static final int MOST = 4096;

    private Preview() {}

    /** All of it, for its fields to be found; empty when it is longer than a sensor's message. */
    static String whole(byte[] payload) {
        return payload.length > MOST ? "" : new String(payload, StandardCharsets.UTF_8);
    }

    static String of(byte[] payload) {
        byte[] first = payload.length > BYTES ? Arrays.copyOf(payload, BYTES) : payload;
        String text = new String(first, StandardCharsets.UTF_8).replaceAll("\\p{Cntrl}", "\uFFFD");
        return payload.length > BYTES ? text + "..." : text;
    }
}
