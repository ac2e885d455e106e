package traytender.dashboard.report;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What labels are printed on: sheets to cut, or single labels as a label printer takes them, one a page.
 *
 * @param widthMm width, mm
 * @param heightMm height, mm
 * @param isSheet whether it is a sheet that holds several
 */
public record LabelPaper(double widthMm, double heightMm, boolean isSheet) {
    /** By ISO 216. */
    public static final LabelPaper A4 = new LabelPaper(210, 297, true);
    /** 8.5 by 11 inches. */
    private static final LabelPaper LETTER = new LabelPaper(215.9, 279.4, true);

    private static final Pattern SIZE = Pattern.compile("(\\d{2,3})x(\\d{2,3})");
    /** Below this neither a code nor a name is read at arm's length; our choice. */
    private static final int LEAST_MM = 20;

    private static final int MOST_MM = 300;

    /**
     * A paper by its word: {@code A4}, {@code Letter}, or width and height of a single label in mm, such as {@code 62x29}; empty
     * when it is none of these, or a label is higher than wide or its side is not 20 to 300 mm.
     */
    public static Optional<LabelPaper> of(String word) {
        Matcher size = SIZE.matcher(word);
        if (size.matches()) {
            int width = Integer.parseInt(size.group(1));
            int height = Integer.parseInt(size.group(2));
            return height < LEAST_MM || width > MOST_MM || height > width
                    ? Optional.empty()
                    : Optional.of(new LabelPaper(width, height, false));
        }
        return switch (word) {
            case "A4" -> Optional.of(A4);
            case "Letter" -> Optional.of(LETTER);
            default -> Optional.empty();
        };
    }

    /** Its size as CSS writes it. */
    String css() {
        return String.format(Locale.ROOT, "%.1fmm %.1fmm", widthMm, heightMm);
    }
}
