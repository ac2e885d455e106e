package traytender.config.crop;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/**
 * Every number a rule compares with, with its unit (UCUM) and the range a file may give. One list for the reader, the JSON
 * Schema, the rules and the page.
 *
 * <p>{@code root-target} is written as a pair in files ({@link #ROOT_TARGET_LOW}, {@link #ROOT_TARGET_HIGH}), {@code
 * damp-air} as a map ({@link #DAMP_AIR_HUMIDITY}, {@link #DAMP_AIR_HOURS}).
 */
public enum LimitKey {
    /** Moisture below which a cell is too dry. */
    DRY_LINE("1", 0, 1),
    /** Moisture above which a cell is too wet. */
    WET_LINE("1", 0, 1.5),
    /** Longest stay above the wet line. */
    WET_HOURS("h", 0, 1000),
    /** Fastest zone's drying rate over the slowest zone's. */
    UNEVEN_RATIO("1", 1, 20),
    /** How long a condition must last before it opens an alert. */
    LASTING_MINUTES("min", 0, 1440),
    /** How far a value must come back past its line to close an alert; moisture. */
    CLEAR_MARGIN("1", 0, 0.5),
    /** Root zone too cold below this. */
    ROOT_COLD("Cel", -10, 40),
    ROOT_TARGET_LOW("Cel", -10, 50),
    ROOT_TARGET_HIGH("Cel", -10, 50),
    /** Overheating opens at this. */
    ROOT_HOT("Cel", 0, 60),
    /** The mat must go off now at this. */
    ROOT_SHUT_OFF("Cel", 0, 70),
    /** Centre minus edge. */
    ROOT_SPREAD("K", 0, 40),
    AIR_NIGHT_COLD("Cel", -30, 40),
    AIR_HOT("Cel", 0, 60),
    /** Days a potted-up plant recovers; also how long it is not moved. */
    RECOVERY_DAYS("d", 0, 60),
    /** Days after potting up in which nothing is fed. */
    FEED_DAYS("d", 0, 60),
    /** Days of hardening before planting out. */
    HARDEN_DAYS("d", 0, 60),
    /** Air temperature at which this stage takes frost harm. */
    FROST("Cel", -30, 20),
    /** Time after potting up in which a medium above the wet line is right. */
    SOAK_HOURS("h", 0, 240),
    DAMP_AIR_HUMIDITY("%", 0, 100),
    DAMP_AIR_HOURS("h", 0, 240),
    /** How far ahead {@code drying-soon} looks. */
    DRY_HORIZON_HOURS("h", 0, 72);

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');
    private final String unit;
    private final double lowest;
    private final double highest;

    LimitKey(String unit, double lowest, double highest) {
        this.unit = unit;
        this.lowest = lowest;
        this.highest = highest;
    }

    /** The word used in files and on the page, for example {@code dry-line}. */
    public String word() {
        return word;
    }

    /** UCUM code of the unit. */
    public String unit() {
        return unit;
    }

    /** The smallest value a file may give. */
    public double lowest() {
        return lowest;
    }

    /** The largest value a file may give. */
    public double highest() {
        return highest;
    }

    /** The key of that word, if there is one. */
    public static Optional<LimitKey> ofWord(String word) {
        return Arrays.stream(values()).filter(key -> key.word.equals(word)).findFirst();
    }
}
