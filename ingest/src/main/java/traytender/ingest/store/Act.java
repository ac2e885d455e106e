package traytender.ingest.store;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What the grower did about one or several alerts, in one tap.
 *
 * @param number its own for good, from 1
 * @param until from then on the alerts ask again; null for never
 * @param alerts ids of the alerts it is about
 * @param entries numbers of the journal entries written with it
 * @param undone whether the grower took it back
 */
public record Act(
        long number,
        Mark mark,
        Instant at,
        @Nullable Instant until,
        List<String> alerts,
        List<Long> entries,
        boolean undone) {
    public Act {
        alerts = List.copyOf(alerts);
        entries = List.copyOf(entries);
    }

    /** Whether it still answers its alerts at a time. */
    public boolean holds(Instant time) {
        return !undone && (until == null || time.isBefore(until));
    }

    /** What was done. */
    public enum Mark {
        DONE,
        /** Ask again in some hours. */
        LATER,
        /** A false alarm: it is not so. */
        NOT_SO,
        /** Only looked at. */
        SEEN;

        private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

        /** The word used in files, for example {@code not-so}. */
        public String word() {
            return word;
        }

        /** The mark of that word, if there is one. */
        public static Optional<Mark> ofWord(String word) {
            return Arrays.stream(values())
                    .filter(mark -> mark.word.equals(word))
                    .findFirst();
        }
    }
}
