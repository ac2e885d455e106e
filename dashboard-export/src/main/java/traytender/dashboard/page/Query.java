package traytender.dashboard.page;

import io.javalin.http.Context;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.Optional;
import java.util.TreeSet;

/** The parameters of one question, checked: whatever is not as it should be is answered with 400 and what would be right. */
final class Query {
    private final Context context;

    /** The parameters of this question, which may carry the named ones and no others. */
    Query(Context context, String... known) {
        this.context = context;
        var others = new TreeSet<>(context.queryParamMap().keySet());
        others.removeAll(Arrays.asList(known));
        if (!others.isEmpty()) {
            throw Answer.wrong("unknown parameter " + others.first() + "; known here: " + String.join(", ", known));
        }
    }

    Optional<String> word(String name) {
        return Optional.ofNullable(context.queryParam(name));
    }

    String needed(String name) {
        return word(name).orElseThrow(() -> Answer.wrong("parameter " + name + " is missing"));
    }

    boolean yes(String name) {
        String word = word(name).orElse("false");
        if (!word.equals("true") && !word.equals("false")) {
            throw Answer.wrong(name + "=" + word + " is neither true nor false");
        }
        return word.equals("true");
    }

    Optional<Instant> time(String name) {
        return word(name).map(word -> parseTime(name, word));
    }

    Optional<Integer> count(String name, int least, int most) {
        return word(name).map(word -> {
            try {
                int count = Integer.parseInt(word);
                if (count >= least && count <= most) {
                    return count;
                }
            } catch (NumberFormatException e) {
                // Said below, as for a number out of range.
            }
            throw Answer.wrong(name + "=" + word + " is not a whole number from " + least + " to " + most);
        });
    }

    static LocalDate date(String word) {
        try {
            return LocalDate.parse(word);
        } catch (DateTimeParseException e) {
            throw Answer.wrong(word + " is not a date; right would be 2026-03-14");
        }
    }

    private static Instant parseTime(String name, String word) {
        try {
            // A plus sign that was not escaped arrives as a space.
            return OffsetDateTime.parse(word.replace(' ', '+')).toInstant();
        } catch (DateTimeParseException e) {
            throw Answer.wrong(name + "=" + word + " is not a time; right would be 2026-03-14T05:41:00Z");
        }
    }
}
