package traytender.config.journal;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What a journal entry is about. */
public enum EntryKind {
    SOWN,
    EMERGED,
    WATERED,
    FED,
    THINNED,
    LOSSES,
    NOTE,
    POTTED_UP,
    MOVED,
    TURNED,
    COVERED,
    UNCOVERED,
    WANTS_WATER,
    MAT_ON,
    MAT_OFF,
    HARDENING,
    PLANTED_OUT,
    STAGE;

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

    /** The word used in files, for example {@code potted-up}. */
    public String word() {
        return word;
    }

    /** The kind of that word, if there is one. */
    public static Optional<EntryKind> ofWord(String word) {
        return Arrays.stream(values()).filter(kind -> kind.word.equals(word)).findFirst();
    }
}
