package traytender.rules.view;

import java.util.Locale;

/** How a probe is doing. */
public enum ProbeHealth {
    /** Nothing heard from it yet. */
    WAITING,
    WELL,
    SILENT,
    STUCK,
    JUMPING,
    RANGE,
    ODD,
    CLOCK;

    /** The word used on the page and in JSON. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
