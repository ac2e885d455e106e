package traytender.config.site;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a probe measures, with the UCUM unit of its calibrated value and the range beyond which it is not plausible. */
public enum Quantity {
    /** Water in the cell as a fraction of container capacity; just after watering it may read more than 1. */
    MOISTURE("1", -0.05, 1.25),
    /** Root zone, in the medium, in C. */
    TEMPERATURE("Cel", -20, 60),
    /** On the mat, in C. */
    MAT_SURFACE("Cel", -20, 90),
    AIR_TEMPERATURE("Cel", -40, 60),
    /** Relative humidity in percent. */
    HUMIDITY("%", 0, 100.5),
    /** Watts, or 1 while heating and 0 while resting. */
    MAT_POWER("W", 0, 5000),
    /** Lux, or 1 when lit and 0 when dark. */
    LIGHT("lx", 0, 200_000),
    /** Of a whole tray, in g; with a tare calibration a moisture fraction. */
    WEIGHT("g", 0, 100_000),
    /** Percent of a full battery. */
    BATTERY("%", 0, 105);

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');
    private final String unit;
    private final double lowest;
    private final double highest;

    Quantity(String unit, double lowest, double highest) {
        this.unit = unit;
        this.lowest = lowest;
        this.highest = highest;
    }

    /** The word used in files, for example {@code air-temperature}. */
    public String word() {
        return word;
    }

    /** The UCUM code of the calibrated value's unit. */
    public String unit() {
        return unit;
    }

    /** Whether a calibrated value can be believed at all; NaN cannot. Bounds are our choice, wide on purpose. */
    public boolean isPlausible(double value) {
        return value >= lowest && value <= highest;
    }

    /** The quantity of that word, if there is one. */
    public static Optional<Quantity> ofWord(String word) {
        return Arrays.stream(values())
                .filter(quantity -> quantity.word.equals(word))
                .findFirst();
    }
}
