package traytender.config.site;

import java.util.Locale;

/** What kind of place a room is. */
public enum RoomKind {
    /** A propagation room, heated and lit. */
    INDOORS,
    GREENHOUSE,
    /** An outdoor hardening area such as a cold frame. */
    OUTDOORS;

    /** The word used in files. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
