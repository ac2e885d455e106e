package traytender.rules.view;

import java.util.Locale;

/**
 * A mat as far as known.
 *
 * @param inferred whether the state was worked out from temperatures, for want of a power probe
 */
public record MatView(String id, State state, boolean inferred) {
    /** What the mat is doing. */
    public enum State {
        HEATING,
        RESTING,
        UNKNOWN;

        /** The word used on the page and in JSON. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }
}
