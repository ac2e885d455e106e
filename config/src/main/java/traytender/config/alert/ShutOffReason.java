package traytender.config.alert;

import java.util.Locale;

/** Why a mat should be turned off or down. */
public enum ShutOffReason {
    TOO_HOT,
    DRYING_PATTERN,
    EMERGED,
    STAGE,
    NO_PROBE,
    ROOM_WARM;

    /** The word used in files and topics, for example {@code too-hot}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
