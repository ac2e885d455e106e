package traytender.config.reading;

import java.util.ArrayList;
import java.util.List;

/** Marks a reading may carry, as bits of an int, so that a season's readings stay small. */
public final class Marks {
    /** No mark. */
    public static final int NONE = 0;
    /** Outside what the calibration covers; the value was held at its end. */
    public static final int CLAMPED = 1;
    /** Beyond what is plausible for the quantity. */
    public static final int RANGE = 2;
    /** A raw value that is the sensor's own way to report a failure, such as 85 C at power-on. */
    public static final int SENSOR_ERROR = 4;
    /** The program's own clock was wrong when it came. */
    public static final int CLOCK = 8;

    private static final String[] WORDS = {"clamped", "range", "sensor-error", "clock"};

    private Marks() {}

    /** The words of the marks set, in a fixed order; empty when there are none. */
    public static List<String> words(int marks) {
        var words = new ArrayList<String>();
        for (int bit = 0; bit < WORDS.length; bit++) {
            if ((marks & (1 << bit)) != 0) {
                words.add(WORDS[bit]);
            }
        }
        return words;
    }
}
