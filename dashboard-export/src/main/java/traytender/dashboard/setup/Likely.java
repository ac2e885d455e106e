package traytender.dashboard.setup;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Quantity;
import traytender.ingest.decode.Fields.Found;

/**
 * What a number in a message probably is, by its unit (SenML units, RFC 8428 section 12.1), its name, or failing these its size.
 * A proposal for the grower to accept or change, no more. The bounds of sizes are our choice.
 *
 * @param scale calibration that brings it into the quantity's unit; empty when it is so already, or must be calibrated by hand
 * @param why in the grower's words
 */
public record Likely(Quantity measures, Map<String, Object> scale, String why) {
    /** C from F. */
    private static final Map<String, Object> FROM_F = Map.of("polynomial", List.of(-17.777778, 0.555556));
    /** A whole from percent. */
    private static final Map<String, Object> FROM_PERCENT = Map.of("polynomial", List.of(0, 0.01));

    private static final Map<String, Quantity> UNITS = Map.of(
            "Cel", Quantity.TEMPERATURE,
            "%RH", Quantity.HUMIDITY,
            "lx", Quantity.LIGHT,
            "W", Quantity.MAT_POWER,
            "g", Quantity.WEIGHT,
            "%EL", Quantity.BATTERY);

    private enum Name {
        AIR(Quantity.AIR_TEMPERATURE, "air.?temp|ambient|temp.*air"),
        BATTERY(Quantity.BATTERY, "batt|vbat|soc"),
        MOISTURE(Quantity.MOISTURE, "moist|soil(?!.?t)|vwc|capac|wet"),
        HUMIDITY(Quantity.HUMIDITY, "hum|(^|[^a-z])rh([^a-z]|$)"),
        LIGHT(Quantity.LIGHT, "lux|light|illum"),
        WEIGHT(Quantity.WEIGHT, "weight|mass|gram|scale|load"),
        POWER(Quantity.MAT_POWER, "watt|power"),
        TEMPERATURE(Quantity.TEMPERATURE, "temp|celsius|(^|[^a-z])t([^a-z]|$)|root");

        private final Quantity quantity;
        private final String pattern;

        Name(Quantity quantity, String pattern) {
            this.quantity = quantity;
            this.pattern = pattern;
        }
    }

    /**
     * What a number probably is.
     *
     * @param topic whose last level may name it where the field does not
     * @param others the message's numbers, this one among them
     */
    public static Optional<Likely> of(String topic, Found field, List<Found> others) {
        Quantity byUnit = UNITS.get(String.valueOf(field.unit()));
        if (byUnit != null) {
            boolean isAir = byUnit == Quantity.TEMPERATURE && hasHumidity(others);
            return Optional.of(
                    likely(isAir ? Quantity.AIR_TEMPERATURE : byUnit, field.value(), "by its unit " + field.unit()));
        }
        String name = field.where()
                .substring(
                        Math.max(field.where().lastIndexOf('/'), field.where().lastIndexOf(':')) + 1);
        Optional<Quantity> byName = byName(name);
        if (byName.isEmpty() && others.size() == 1) {
            name = topic;
            byName = byName(topic);
        }
        if (byName.isPresent()) {
            Quantity quantity = byName.get();
            boolean isAir = quantity == Quantity.TEMPERATURE && hasHumidity(others) && !name.contains("soil");
            return Optional.of(
                    likely(isAir ? Quantity.AIR_TEMPERATURE : quantity, field.value(), "by its name " + name));
        }
        return bySize(field.value());
    }

    private static boolean hasHumidity(List<Found> others) {
        return others.stream()
                .anyMatch(other -> "%RH".equals(other.unit())
                        || byName(other.where())
                                .filter(Quantity.HUMIDITY::equals)
                                .isPresent());
    }

    private static Optional<Quantity> byName(String name) {
        String lower = name.toLowerCase(Locale.ROOT);
        for (Name one : Name.values()) {
            if (Pattern.compile(one.pattern).matcher(lower).find()) {
                return Optional.of(one.quantity);
            }
        }
        return Optional.empty();
    }

    private static Likely likely(Quantity quantity, double value, String why) {
        @Nullable
        Map<String, Object> scale = switch (quantity) {
            case TEMPERATURE, AIR_TEMPERATURE, MAT_SURFACE -> value > 48 && value < 125 ? FROM_F : Map.of();
            case MOISTURE -> value > 1.5 && value <= 100 ? FROM_PERCENT : Map.of();
            default -> Map.of();
        };
        return new Likely(
                quantity,
                scale,
                why + (scale.isEmpty() ? "" : quantity == Quantity.MOISTURE ? ", in percent" : ", in F"));
    }

    private static Optional<Likely> bySize(double value) {
        boolean isWhole = value == Math.rint(value);
        if (isWhole && value >= 300 && value <= 65_535) {
            return Optional.of(
                    new Likely(Quantity.MOISTURE, Map.of(), "a whole number of the size of a converter's counts"));
        }
        return value > 5 && value < 45
                ? Optional.of(new Likely(Quantity.TEMPERATURE, Map.of(), "of the size of a temperature in C"))
                : Optional.empty();
    }
}
