package traytender.config.crop;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** How far a sowing has come, in order. */
public enum Stage {
    GERMINATING,
    /** Cotyledons to true leaves. */
    SEEDLING,
    /** After potting up. */
    RECOVERING,
    GROWING_ON,
    HARDENING,
    /** In the ground: no longer watched. */
    PLANTED_OUT;

    private final String word = name().toLowerCase(Locale.ROOT).replace('_', '-');

    /** The word used in files, for example {@code growing-on}. */
    public String word() {
        return word;
    }

    /** The stage of that word, if there is one. */
    public static Optional<Stage> ofWord(String word) {
        return Arrays.stream(values()).filter(stage -> stage.word.equals(word)).findFirst();
    }
}
