package traytender.dashboard.limits;

import java.time.Instant;
import java.util.Locale;
import traytender.config.crop.Stage;
import traytender.config.site.Zone;

/**
 * A moment at which the grower's own word or hand tells where a dry line ought to lie.
 *
 * @param stage of the sowing that the zone is judged by at that moment
 * @param moisture fraction of container capacity: where water was {@linkplain Why#isNeed needed}, a line above it would have
 *     warned in time; where it was not, a line above it warns for nothing
 */
public record LineMoment(String tray, Zone zone, String crop, Stage stage, Instant at, Why why, double moisture) {
    /** What the grower said or did. */
    public enum Why {
        /** "I would water this now." */
        WANTED,
        /** The water came long after the dry alert: a warning sooner by as much would have had it there in time. */
        LATE,
        /** A moisture alert marked as not so. */
        NOT_SO;

        private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

        /** The word used in JSON. */
        public String word() {
            return word;
        }

        /** Whether water was needed. */
        public boolean isNeed() {
            return this != NOT_SO;
        }
    }

    /** Whether an alert by this line would have been there. */
    boolean isWarnedBy(double line) {
        return moisture < line;
    }
}
