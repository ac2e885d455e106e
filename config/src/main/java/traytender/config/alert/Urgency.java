package traytender.config.alert;

import java.util.Locale;

/** How soon the grower should act, most urgent first. */
public enum Urgency {
    NOW,
    TODAY,
    NOTE;

    /** The word used in files and messages. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
