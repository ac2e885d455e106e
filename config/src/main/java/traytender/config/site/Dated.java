package traytender.config.site;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A value that changes at known times: the place of a probe that was moved, a calibration that was made anew. What an
 * earlier reading meant is never rewritten by a later value.
 *
 * @param <T> the value's type
 */
public record Dated<T>(List<From<T>> values) {
    /**
     * A value in force from a time on.
     *
     * @param since from this time on, inclusive; {@link Instant#MIN} for the first value without a date
     */
    public record From<T>(Instant since, T value) {}

    public Dated {
        if (values.isEmpty()) {
            throw new IllegalArgumentException("a dated value needs at least one value");
        }
        values = values.stream()
                .sorted(Comparator.comparing((From<T> from) -> from.since()))
                .toList();
    }

    /** A value that has always held. */
    public static <T> Dated<T> always(T value) {
        return new Dated<>(List.of(new From<>(Instant.MIN, value)));
    }

    /** The value in force at a time; empty before the first one. */
    public Optional<T> at(Instant time) {
        return inForce(time).map(From::value);
    }

    /** The value in force at a time and since when it is; empty before the first one. */
    public Optional<From<T>> inForce(Instant time) {
        From<T> found = null;
        for (From<T> from : values) {
            if (from.since.isAfter(time)) {
                break;
            }
            found = from;
        }
        return Optional.ofNullable(found);
    }

    /** The newest value, whatever the time. */
    public T last() {
        return values.get(values.size() - 1).value();
    }
}
