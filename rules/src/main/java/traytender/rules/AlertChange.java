package traytender.rules;

import traytender.config.alert.Alert;

/**
 * Something that happened to an alert.
 *
 * @param alert as it is after the change; as it was when withdrawn
 */
public record AlertChange(What what, Alert alert) {
    /** What happened. */
    public enum What {
        OPENED,
        CLOSED,
        /** A late reading changed what it says, when it closed, or that it closed at all. */
        CHANGED,
        /** A late reading showed that it should never have opened. */
        WITHDRAWN
    }
}
