package traytender.ingest.decode;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Resolves a SenML pack in JSON (RFC 8428, section 4.6): base fields worked into every record, relative times made absolute,
 * records in order of time. <b>Not thread-safe</b>; one for each pack.
 */
final class SenMl {
    /** The newest version that this reads (section 4.4). */
    private static final int VERSION = 10;
    /** A time below 2^28 s is relative to now (section 4.5.3). */
    private static final BigDecimal RELATIVE_BELOW = BigDecimal.valueOf(1 << 28);
    /** Section 4.5.1. */
    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9:./_-]*");

    private static final Set<String> VALUES = Set.of("v", "vs", "vb", "vd");
    private static final Set<String> BASE = Set.of("bn", "bt", "bu", "bv", "bs", "bver");

    private final BigDecimal nowSeconds;
    private String baseName = "";
    private BigDecimal baseTime = BigDecimal.ZERO;
    private @Nullable String baseUnit;
    private double baseValue;
    private @Nullable Double baseSum;

    private SenMl(long nowMs) {
        this.nowSeconds = BigDecimal.valueOf(nowMs, 3);
    }

    /**
     * A resolved record; exactly one of the values is there, or none when there is a sum.
     *
     * @param seconds since 1970
     * @param data {@code vd}, in base64 for URLs as it was sent
     * @param hasTime whether the pack gave a time; if not, {@code seconds} is now
     */
    record Resolved(
            String name,
            @Nullable String unit,
            BigDecimal seconds,
            boolean hasTime,
            @Nullable Double value,
            @Nullable String text,
            @Nullable Boolean flag,
            @Nullable String data,
            @Nullable Double sum) {
        long timeMs() {
            return seconds.movePointRight(3).setScale(0, RoundingMode.HALF_UP).longValue();
        }
    }

    /**
     * The pack's records.
     *
     * @param nowMs what relative times count from, in ms since 1970
     * @throws Refused when it is no pack
     */
    static List<Resolved> resolve(JsonNode pack, long nowMs) throws Refused {
        if (!pack.isArray()) {
            throw new Refused(Cause.NOT_SENML);
        }
        var senMl = new SenMl(nowMs);
        var records = new ArrayList<Resolved>();
        for (JsonNode entry : pack) {
            senMl.take(entry);
            if (!isBaseOnly(entry)) {
                records.add(senMl.resolved(entry));
            }
        }
        // A stable sort: records of one time stay in the pack's order.
        records.sort(Comparator.comparing(Resolved::seconds));
        return records;
    }

    private void take(JsonNode entry) throws Refused {
        if (!entry.isObject() || entry.path("bver").asInt(VERSION) > VERSION) {
            throw new Refused(Cause.NOT_SENML);
        }
        for (Iterator<String> fields = entry.fieldNames(); fields.hasNext(); ) {
            // A label that ends in _ must be understood or refused (section 4.4).
            if (fields.next().endsWith("_")) {
                throw new Refused(Cause.NOT_SENML);
            }
        }
        baseName = entry.path("bn").asText(baseName);
        baseUnit = entry.has("bu") ? entry.path("bu").asText() : baseUnit;
        baseTime = entry.has("bt") ? number(entry.path("bt")) : baseTime;
        baseValue = entry.has("bv") ? number(entry.path("bv")).doubleValue() : baseValue;
        baseSum = entry.has("bs") ? Double.valueOf(number(entry.path("bs")).doubleValue()) : baseSum;
    }

    private static boolean isBaseOnly(JsonNode entry) {
        for (Iterator<String> fields = entry.fieldNames(); fields.hasNext(); ) {
            if (!BASE.contains(fields.next())) {
                return false;
            }
        }
        return entry.size() > 0;
    }

    private Resolved resolved(JsonNode entry) throws Refused {
        String name = baseName + entry.path("n").asText("");
        Double sum = sum(entry);
        long values = VALUES.stream().filter(entry::has).count();
        if (!NAME.matcher(name).matches() || values > 1 || (values == 0 && sum == null)) {
            throw new Refused(Cause.NOT_SENML);
        }
        BigDecimal time = entry.has("t") ? baseTime.add(number(entry.path("t"))) : baseTime;
        boolean isRelative = time.compareTo(RELATIVE_BELOW) < 0;
        return new Resolved(
                name,
                entry.has("u") ? entry.path("u").asText() : baseUnit,
                isRelative ? nowSeconds.add(time) : time,
                !isRelative || time.signum() != 0,
                entry.has("v")
                        ? Double.valueOf(baseValue + number(entry.path("v")).doubleValue())
                        : null,
                entry.has("vs") ? entry.path("vs").asText() : null,
                entry.has("vb") ? Boolean.valueOf(entry.path("vb").asBoolean()) : null,
                entry.has("vd") ? data(entry.path("vd").asText()) : null,
                sum);
    }

    private @Nullable Double sum(JsonNode entry) throws Refused {
        if (!entry.has("s")) {
            return baseSum;
        }
        double own = number(entry.path("s")).doubleValue();
        return baseSum == null ? own : baseSum + own;
    }

    private static String data(String text) throws Refused {
        try {
            Base64.getUrlDecoder().decode(text);
            return text;
        } catch (IllegalArgumentException e) {
            throw new Refused(Cause.NOT_SENML);
        }
    }

    private static BigDecimal number(JsonNode value) throws Refused {
        if (!value.isNumber()) {
            throw new Refused(Cause.NOT_SENML);
        }
        double number = Values.finite(value.doubleValue());
        return BigDecimal.valueOf(number);
    }
}
