package traytender.config.folder;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Calibration;
import traytender.config.site.Dated;
import traytender.config.site.Quantity;

/** Reads what a probe's raw value means. */
final class CalibrationReading {
    static final List<String> KEYS = List.of(
            "none", "dry", "wet", "points", "polynomial", "ntc", "platinum", "offset", "tare", "drained", "since");

    private static final String RIGHT =
            "{dry, wet}, {points}, {polynomial}, {ntc}, {platinum}, {offset}, {tare, drained} or none is right";
    private static final Set<Quantity> TEMPERATURES =
            EnumSet.of(Quantity.TEMPERATURE, Quantity.MAT_SURFACE, Quantity.AIR_TEMPERATURE);
    private static final int MOST_COEFFICIENTS = 10;
    private static final int MOST_POINTS = 1000;
    private static final double LARGE = 1e9;

    private CalibrationReading() {}

    static @Nullable Dated<Calibration> dated(Field field, @Nullable Quantity quantity, ZoneId zone) {
        return Since.read(field, zone, item -> calibration(item, quantity));
    }

    private static @Nullable Calibration calibration(Field field, @Nullable Quantity quantity) {
        if ("none".equals(field.written())) {
            return new Calibration.None();
        }
        if (!field.isMap()) {
            return field.refuse(field.what() + " is " + field.shown(), RIGHT);
        }
        Keys keys = field.keys(KEYS);
        if (keys == null) {
            return null;
        }
        List<String> kinds = keys.names().stream()
                .filter(key -> !key.equals("since"))
                .map(key -> key.equals("wet") ? "dry" : key.equals("drained") ? "tare" : key)
                .distinct()
                .toList();
        if (kinds.size() != 1) {
            return field.refuse(
                    kinds.isEmpty()
                            ? field.what() + " says nothing"
                            : field.what() + " mixes " + String.join(" and ", kinds),
                    "one kind is right: " + RIGHT);
        }
        checkQuantity(field, kinds.get(0), quantity);
        return switch (kinds.get(0)) {
            case "none" -> keys.need("none", Field::yes) == null ? null : new Calibration.None();
            case "dry" -> dryWet(keys);
            case "points" -> keys.need("points", list -> points(list, quantity));
            case "polynomial" -> keys.need("polynomial", CalibrationReading::polynomial);
            case "ntc" -> keys.need("ntc", CalibrationReading::ntc);
            case "platinum" -> keys.need("platinum", CalibrationReading::platinum);
            case "offset" -> offset(keys);
            default -> weight(keys);
        };
    }

    private static void checkQuantity(Field field, String kind, @Nullable Quantity quantity) {
        if (quantity == null) {
            return;
        }
        boolean fits = switch (kind) {
            case "dry" -> quantity == Quantity.MOISTURE;
            case "tare" -> quantity == Quantity.WEIGHT;
            case "ntc", "platinum" -> TEMPERATURES.contains(quantity);
            default -> true;
        };
        if (!fits) {
            field.wrong(
                    "a " + kind + " calibration does not give " + quantity.word(),
                    switch (kind) {
                        case "dry" -> "it is for moisture";
                        case "tare" -> "it is for weight";
                        default -> "it is for temperatures";
                    });
        }
    }

    private static @Nullable Calibration dryWet(Keys keys) {
        Double dry = keys.need("dry", Field::number);
        Double wet = keys.need("wet", Field::number);
        if (dry == null || wet == null) {
            return null;
        }
        return dry.equals(wet)
                ? keys.map().refuse("dry and wet are both " + Field.plain(dry), "two different raw values are right")
                : new Calibration.DryWet(dry, wet);
    }

    private static @Nullable Calibration points(Field field, @Nullable Quantity quantity) {
        var points = new ArrayList<Calibration.Point>();
        List<Field> items = field.items();
        for (Field item : items) {
            Calibration.Point point = point(item.named("a point"), quantity);
            if (point == null) {
                return null;
            }
            if (!points.isEmpty()
                    && point.raw() <= points.get(points.size() - 1).raw()) {
                return item.refuse(
                        "the raw value " + Field.plain(point.raw()) + " is not larger than the one before it",
                        "points by increasing raw value are right");
            }
            points.add(point);
        }
        return points.size() < 2 || points.size() > MOST_POINTS
                ? field.isList()
                        ? field.refuse("points are " + points.size(), "from 2 to " + MOST_POINTS + " points are right")
                        : null
                : new Calibration.Points(points);
    }

    private static Calibration.@Nullable Point point(Field field, @Nullable Quantity quantity) {
        List<Field> pair = field.items();
        if (pair.size() != 2) {
            return field.isList()
                    ? field.refuse("a point has " + pair.size() + " numbers", "[raw, value] is right")
                    : null;
        }
        Double raw = pair.get(0).named("the raw value").number();
        Field value = pair.get(1).named("the value");
        Double calibrated =
                quantity == Quantity.MOISTURE ? value.number(0, 1.5, "of container capacity") : value.number();
        return raw == null || calibrated == null ? null : new Calibration.Point(raw, calibrated);
    }

    private static @Nullable Calibration polynomial(Field field) {
        List<Field> items = field.items();
        List<Double> coefficients =
                field.list(item -> item.named("a coefficient").number());
        if (items.size() != coefficients.size() || !field.isList()) {
            return null;
        }
        return coefficients.isEmpty() || coefficients.size() > MOST_COEFFICIENTS
                ? field.refuse(
                        "polynomial has " + coefficients.size() + " coefficients",
                        "from 1 to " + MOST_COEFFICIENTS + " are right: [c0, c1, ...]")
                : new Calibration.Polynomial(coefficients);
    }

    private static @Nullable Calibration ntc(Field field) {
        Keys keys = field.keys(List.of("r25", "beta", "series", "counts"));
        if (keys == null) {
            return null;
        }
        Double r25 = keys.need("r25", value -> value.number(1, LARGE, "ohms"));
        Double beta = keys.need("beta", value -> value.number(500, 10_000, "kelvin"));
        Double series = keys.need("series", value -> value.number(1, LARGE, "ohms"));
        Double counts = keys.need("counts", value -> value.number(1, LARGE, "counts"));
        return r25 == null || beta == null || series == null || counts == null
                ? null
                : new Calibration.Ntc(r25, beta, series, counts);
    }

    private static @Nullable Calibration platinum(Field field) {
        Keys keys = field.keys(List.of("r0"));
        Double r0 = keys == null ? null : keys.need("r0", value -> value.number(1, 100_000, "ohms"));
        return r0 == null ? null : new Calibration.Platinum(r0);
    }

    private static @Nullable Calibration offset(Keys keys) {
        Double offset = keys.need("offset", Field::number);
        return offset == null ? null : new Calibration.Offset(offset);
    }

    private static @Nullable Calibration weight(Keys keys) {
        Double tare = keys.need("tare", value -> value.number(0, LARGE, "g"));
        Double drained = keys.need("drained", value -> value.number(0, LARGE, "g"));
        if (tare == null || drained == null) {
            return null;
        }
        return drained <= tare
                ? keys.map().refuse("drained is not heavier than tare", "the watered, drained tray weighs more")
                : new Calibration.Weight(tare, drained);
    }
}
