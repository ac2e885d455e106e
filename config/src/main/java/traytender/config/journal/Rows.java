package traytender.config.journal;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;

/**
 * Whole rows of a tray, as the journal and the site file write them: {@code 1-4} or {@code 3}.
 *
 * @param first counted from the front, from 1
 * @param last inclusive, at least {@code first}
 */
public record Rows(int first, int last) {
    private static final Pattern FORM = Pattern.compile("\\s*(\\d{1,4})\\s*(?:[-\u2013]\\s*(\\d{1,4})\\s*)?");

    public Rows {
        if (first < 1 || last < first) {
            throw new IllegalArgumentException("rows " + first + "-" + last);
        }
    }

    /** The rows a text names; empty when it is not in this form or runs backwards. */
    public static Optional<Rows> parse(String text) {
        Matcher matcher = FORM.matcher(text);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        int first = Integer.parseInt(matcher.group(1));
        int last = matcher.group(2) == null ? first : Integer.parseInt(matcher.group(2));
        return first < 1 || last < first ? Optional.empty() : Optional.of(new Rows(first, last));
    }

    /** The cells of these rows in a tray; empty when the tray has none of them. */
    public Optional<CellBlock> in(Cells cells) {
        return first > cells.rows()
                ? Optional.empty()
                : Optional.of(new CellBlock(first, Math.min(last, cells.rows()), 1, cells.columns()));
    }

    @Override
    public String toString() {
        return first == last ? Integer.toString(first) : first + "-" + last;
    }
}
