package traytender.config.folder;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Dated;

/** Reads a value that may be a list of values with dates. */
final class Since {
    private Since() {}

    /** One value, or a list of them each with its {@code since}; the first may have always held. */
    static <T> @Nullable Dated<T> read(Field field, ZoneId zone, Field.Reads<T> reads) {
        if (!field.isList()) {
            T value = reads.from(field);
            Instant since = since(field, zone);
            return value == null || since == null ? null : new Dated<>(List.of(new Dated.From<>(since, value)));
        }
        var values = new ArrayList<Dated.From<T>>();
        boolean whole = true;
        for (Field item : field.items()) {
            T value = reads.from(item);
            Instant since = since(item, zone);
            if (value == null || since == null) {
                whole = false;
                continue;
            }
            checkOrder(item, values, since);
            values.add(new Dated.From<>(since, value));
        }
        if (values.isEmpty() && whole) {
            field.wrong(field.what() + " is an empty list", "give at least one value");
        }
        return values.isEmpty() || !whole ? null : new Dated<>(values);
    }

    private static <T> void checkOrder(Field item, List<Dated.From<T>> before, Instant since) {
        if (before.isEmpty()) {
            return;
        }
        if (since.equals(Instant.MIN)) {
            item.wrong("a later value of " + item.what() + " has no since", "give the time from which on it holds");
        } else if (!since.isAfter(before.get(before.size() - 1).since())) {
            item.wrong(
                    "the since of this " + item.what() + " is not after the one before it",
                    "put them in order of time");
        }
    }

    /** {@link Instant#MIN} without a date; null when an error was noted. */
    private static @Nullable Instant since(Field field, ZoneId zone) {
        Field date = Keys.peek(field, "since");
        return date == null ? Instant.MIN : Times.instant(date, zone);
    }
}
