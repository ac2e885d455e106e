package traytender.ingest.decode;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Resolves a SenML pack in JSON (RFC 8428, section 4.6): base fields worked into every record, relative times told apart from
 * absolute ones, records in order of time. A pack that breaks a rule of the RFC is refused whole. <b>Not thread-safe</b>; one for
 * each pack.
 */
final class SenMl {
    /** The newest version that this reads, and the one meant when none is named (section 4.4). */
    private static final int VERSION = 10;
    /** A time below 2^28 s is relative to now (section 4.5.3). */
    private static final BigDecimal RELATIVE_BELOW = BigDecimal.valueOf(1 << 28);
    /** The year 9999; as a bound it also keeps every time in milliseconds a long. */
    private static final BigDecimal LATEST = BigDecimal.valueOf(253_402_300_799L);
    /** Section 4.5.1. */
    private static final Pattern NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9:./_-]*");

    private static final Set<String> VALUES = Set.of("v", "vs", "vb", "vd");
    private static final Set<String> BASE = Set.of("bn", "bt", "bu", "bv", "bs", "bver");

    /** What each field must be (section 5, table 4). */
    private enum Kind {
        TEXT,
        NUMBER,
        FLAG
    }

    private static final Map<String, Kind> KINDS = Map.ofEntries(
            Map.entry("bn", Kind.TEXT),
            Map.entry("bt", Kind.NUMBER),
            Map.entry("bu", Kind.TEXT),
            Map.entry("bv", Kind.NUMBER),
            Map.entry("bs", Kind.NUMBER),
            Map.entry("bver", Kind.NUMBER),
            Map.entry("n", Kind.TEXT),
            Map.entry("u", Kind.TEXT),
            Map.entry("v", Kind.NUMBER),
            Map.entry("vs", Kind.TEXT),
            Map.entry("vb", Kind.FLAG),
            Map.entry("vd", Kind.TEXT),
            Map.entry("s", Kind.NUMBER),
            Map.entry("t", Kind.NUMBER),
            Map.entry("ut", Kind.NUMBER));

    private String baseName = "";
    private BigDecimal baseTime = BigDecimal.ZERO;
    private @Nullable String baseUnit;
    private @Nullable Double baseValue;
    private @Nullable Double baseSum;
    private int version = VERSION;

    private SenMl() {}

    /**
     * A resolved record; exactly one of the values is there, or at most one when there is a sum.
     *
     * @param seconds since 1970, or since now when {@code isRelative}
     * @param data {@code vd}, in base64 for URLs as it was sent
     */
    record Resolved(
            String name,
            @Nullable String unit,
            BigDecimal seconds,
            boolean isRelative,
            @Nullable Double value,
            @Nullable String text,
            @Nullable Boolean flag,
            @Nullable String data,
            @Nullable Double sum) {
        /** Milliseconds since 1970, or since now. */
        long ms() {
            return seconds.movePointRight(3).setScale(0, RoundingMode.HALF_UP).longValue();
        }
    }

    /**
     * The pack's records. Those relative to now come after the absolute ones of the same pack, since RFC 8428 leaves now open.
     *
     * @throws Refused when it is no pack
     */
    static List<Resolved> resolve(JsonNode pack) throws Refused {
        if (!pack.isArray() || pack.isEmpty()) {
            throw new Refused(Cause.NOT_SENML);
        }
        var senMl = new SenMl();
        var records = new ArrayList<Resolved>();
        boolean isFirst = true;
        for (JsonNode entry : pack) {
            senMl.check(entry);
            senMl.takeVersion(entry, isFirst);
            senMl.take(entry);
            isFirst = false;
            if (!isBaseOnly(entry)) {
                records.add(senMl.resolved(entry));
            }
        }
        // A stable sort: records of one time stay in the pack's order.
        records.sort(Comparator.comparing(Resolved::isRelative).thenComparing(Resolved::seconds));
        return records;
    }

    private void check(JsonNode entry) throws Refused {
        if (!entry.isObject()) {
            throw new Refused(Cause.NOT_SENML);
        }
        for (Iterator<Map.Entry<String, JsonNode>> fields = entry.fields(); fields.hasNext(); ) {
            Map.Entry<String, JsonNode> field = fields.next();
            Kind kind = KINDS.get(field.getKey());
            // A label that ends in _ must be understood or refused; others may be passed over (section 4.4).
            if (kind == null ? field.getKey().endsWith("_") : !isOfKind(field.getValue(), kind)) {
                throw new Refused(Cause.NOT_SENML);
            }
        }
    }

    private static boolean isOfKind(JsonNode value, Kind kind) {
        return switch (kind) {
            case TEXT -> value.isTextual();
            case NUMBER -> value.isNumber();
            case FLAG -> value.isBoolean();
        };
    }

    /** All records of a pack are of one version (section 4.4), so a later record may only repeat the first one's. */
    private void takeVersion(JsonNode entry, boolean isFirst) throws Refused {
        JsonNode named = entry.path("bver");
        if (named.isMissingNode()) {
            return;
        }
        boolean isKnown = named.isIntegralNumber() && named.canConvertToInt() && named.intValue() > 0;
        if (!isKnown || named.intValue() > VERSION || (!isFirst && named.intValue() != version)) {
            throw new Refused(Cause.NOT_SENML);
        }
        version = named.intValue();
    }

    private void take(JsonNode entry) throws Refused {
        baseName = entry.path("bn").asText(baseName);
        baseUnit = entry.has("bu") ? entry.path("bu").asText() : baseUnit;
        baseTime = entry.has("bt") ? time(entry.path("bt")) : baseTime;
        baseValue = entry.has("bv") ? Double.valueOf(number(entry.path("bv"))) : baseValue;
        baseSum = entry.has("bs") ? Double.valueOf(number(entry.path("bs"))) : baseSum;
    }

    /** Section 5.1.7 shows a first record that only sets base fields: it is no measurement of its own. */
    private static boolean isBaseOnly(JsonNode entry) {
        boolean isBase = false;
        for (Iterator<String> fields = entry.fieldNames(); fields.hasNext(); ) {
            String field = fields.next();
            if (KINDS.containsKey(field) && !BASE.contains(field)) {
                return false;
            }
            isBase |= BASE.contains(field);
        }
        return isBase;
    }

    private Resolved resolved(JsonNode entry) throws Refused {
        String name = baseName + entry.path("n").asText("");
        Double sum = plus(baseSum, entry, "s");
        long values = VALUES.stream().filter(entry::has).count();
        boolean isNumber = entry.has("v") || (values == 0 && sum == null);
        Double value = isNumber ? plus(baseValue, entry, "v") : null;
        if (!NAME.matcher(name).matches() || values > 1 || (values == 0 && sum == null && value == null)) {
            throw new Refused(Cause.NOT_SENML);
        }
        BigDecimal time = entry.has("t") ? baseTime.add(time(entry.path("t"))) : baseTime;
        return new Resolved(
                name,
                entry.has("u") ? entry.path("u").asText() : baseUnit,
                time,
                time.compareTo(RELATIVE_BELOW) < 0,
                value,
                entry.has("vs") ? entry.path("vs").asText() : null,
                entry.has("vb") ? Boolean.valueOf(entry.path("vb").booleanValue()) : null,
                entry.has("vd") ? data(entry.path("vd").asText()) : null,
                sum);
    }

    /** Base and own part added, a missing part counting 0; null when neither is there (section 4.6). */
    private static @Nullable Double plus(@Nullable Double base, JsonNode entry, String field) throws Refused {
        if (!entry.has(field)) {
            return base;
        }
        double own = number(entry.path(field));
        return base == null ? own : base + own;
    }

    /** Base64 for URLs, without padding (section 5). */
    private static String data(String text) throws Refused {
        try {
            Base64.getUrlDecoder().decode(text);
        } catch (IllegalArgumentException e) {
            throw new Refused(Cause.NOT_SENML);
        }
        if (text.indexOf('=') >= 0) {
            throw new Refused(Cause.NOT_SENML);
        }
        return text;
    }

    private static double number(JsonNode value) throws Refused {
        return Values.finite(value.doubleValue());
    }

    private static BigDecimal time(JsonNode value) throws Refused {
        BigDecimal seconds = BigDecimal.valueOf(number(value));
        if (seconds.abs().compareTo(LATEST) > 0) {
            throw new Refused(Cause.BAD_TIME);
        }
        return seconds;
    }
}
