package traytender.config.alert;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Every kind of alert. */
public enum AlertKind {
    DRY,
    DRYING_SOON,
    UNEVEN_DRYING,
    MISSED_WATERING,
    STAYING_WET,
    CENTRE_OVERHEATING,
    UNEVEN_HEAT,
    MAT_SHUT_OFF,
    MAT_NOT_HEATING,
    MAT_NOT_STOPPING,
    ROOT_COLD,
    NIGHT_COLD,
    AIR_HOT,
    FROST_RISK,
    LIGHT_OUT,
    DAMP_AIR,
    POT_UP_DUE,
    MOVE_WAIT,
    FEED_WAIT,
    PLANT_OUT_READY,
    PROBE_SILENT,
    PROBE_STUCK,
    PROBE_JUMPING,
    PROBE_RANGE,
    PROBE_ODD,
    PROBE_CLOCK,
    BATTERY_LOW;

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

    /** The word used in files, messages and topics, for example {@code drying-soon}. */
    public String word() {
        return word;
    }

    /** Whether the probe, not the plant, is the trouble. */
    public boolean isAboutProbe() {
        return compareTo(PROBE_SILENT) >= 0;
    }

    /** The kind of that word, if there is one. */
    public static Optional<AlertKind> ofWord(String word) {
        return Arrays.stream(values()).filter(kind -> kind.word.equals(word)).findFirst();
    }
}
