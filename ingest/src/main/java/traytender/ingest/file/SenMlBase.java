package traytender.ingest.file;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Iterator;
import java.util.Set;

/** The base fields of a SenML pack as they stand at one record, and what a record means under them (RFC 8428, section 4). */
final class SenMlBase {
    /** The newest version of SenML that this reads (RFC 8428, section 4.4). */
    private static final int VERSION = 10;

    /** A time below 2^28 s is relative to now (RFC 8428, section 4.5.3). */
    private static final double RELATIVE_BELOW = 1 << 28;

    private static final Set<String> OF_RECORD = Set.of("n", "u", "v", "vs", "vb", "vd", "s", "t", "ut");

    private String name = "";
    private double time;
    private double value;

    /** Takes over the base fields that the record carries. */
    void take(JsonNode entry) throws Rejection {
        if (entry.path("bver").asInt(VERSION) > VERSION) {
            throw new Rejection("the pack is of SenML version " + entry.path("bver") + ", known is " + VERSION);
        }
        name = entry.path("bn").asText(name);
        time = entry.path("bt").asDouble(time);
        value = entry.path("bv").asDouble(value);
    }

    /** Whether a record only sets base fields. */
    static boolean isBaseOnly(JsonNode entry) {
        for (Iterator<String> fields = entry.fieldNames(); fields.hasNext(); ) {
            if (OF_RECORD.contains(fields.next())) {
                return false;
            }
        }
        return true;
    }

    /** A label that ends in {@code _} must be understood or refused (RFC 8428, section 4.4). */
    void refuseUnknown(JsonNode entry) throws Rejection {
        for (Iterator<String> fields = entry.fieldNames(); fields.hasNext(); ) {
            var field = fields.next();
            if (field.endsWith("_")) {
                throw new Rejection("the field " + Rejection.quoted(field) + " would have to be understood");
            }
        }
    }

    String name(JsonNode entry) {
        return name + entry.path("n").asText("");
    }

    long timeMs(JsonNode entry) throws Rejection {
        var seconds = time + entry.path("t").asDouble(0);
        if (!(seconds >= RELATIVE_BELOW)) {
            throw new Rejection("its time is relative to now, which means nothing in a file");
        }
        return Math.round(seconds * 1000);
    }

    double value(JsonNode entry) throws Rejection {
        if (entry.path("vb").isBoolean()) {
            return entry.path("vb").booleanValue() ? 1 : 0;
        }
        if (!entry.path("v").isNumber()) {
            throw new Rejection("it has no number in v");
        }
        return value + entry.path("v").doubleValue();
    }
}
