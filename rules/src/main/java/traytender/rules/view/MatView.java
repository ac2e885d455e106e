package traytender.rules.view;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A mat as far as known.
 *
 * @param inferred whether the state was worked out from temperatures, for want of a power probe
 * @param heat how it warms its tray; null until that has shown
 */
public record MatView(
        String id, State state, boolean inferred, @Nullable HeatView heat) {
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
