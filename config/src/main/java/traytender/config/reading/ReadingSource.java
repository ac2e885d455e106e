package traytender.config.reading;

import java.util.function.Consumer;

/** Stored readings in the one order everything is evaluated in. */
@FunctionalInterface
public interface ReadingSource {
    /**
     * Gives every reading of the range to the consumer, in order of time, and of probe id where times are equal.
     *
     * @param fromMs from this time on, inclusive
     * @param toMs up to this time, exclusive
     */
    void scan(long fromMs, long toMs, Consumer<Reading> consumer);
}
