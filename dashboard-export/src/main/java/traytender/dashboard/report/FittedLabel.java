package traytender.dashboard.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * A tray's or row's words fitted to a single label of a label printer: its code at the left as large as its height allows, beside it the
 * name as large as it fits, and as many lines as find room.
 *
 * @param codeMm side of the code with its quiet zone, mm
 * @param namePt size of the name, points
 * @param linePt size of the lines, points
 * @param lines those that find room; the last one says how many did not
 */
record FittedLabel(double codeMm, double namePt, double linePt, List<String> lines) {
    /** White border all round, mm; label printers do not print to the edge. */
    static final double MARGIN_MM = 1.5;

    /** Between code and words, mm. */
    static final double GAP_MM = 1;

    /** What setting it rounds up and leaves between the rows, mm; found by trying. */
    private static final double SLACK_MM = 2.5;

    /** Height of a row of words as a share of their size. */
    static final double LINE_HEIGHT = 1.2;

    private static final double MM_A_POINT = 25.4 / 72;
    /** Still read at arm's length, points; our choice. */
    private static final double SMALLEST_PT = 5;

    private static final double LARGEST_LINE_PT = 11;
    private static final double LARGEST_NAME_PT = 60;
    private static final double STEP_PT = 0.5;
    /** How much of the height the name may take; our choice. */
    private static final double NAME_SHARE = 0.5;

    static FittedLabel of(LabelPaper paper, String name, List<String> all) {
        double height = paper.heightMm() - 2 * MARGIN_MM - SLACK_MM;
        double width = paper.widthMm() - 2 * MARGIN_MM;
        double code = Math.min(height, 0.42 * width);
        double room = width - code - GAP_MM - 0.5;
        double namePt = LARGEST_NAME_PT;
        while (namePt > SMALLEST_PT && !isNameFitting(name, namePt, room, NAME_SHARE * height)) {
            namePt -= STEP_PT;
        }
        double linePt = Math.max(SMALLEST_PT, Math.min(Math.min(LARGEST_LINE_PT, namePt), 0.1 * height / MM_A_POINT));
        double left = height - high(Typeface.BOLD.rows(name, namePt, room), namePt);
        return new FittedLabel(code, namePt, linePt, fitting(all, linePt, room, (int) (left / high(1, linePt))));
    }

    /** Whether it is low enough and no word of it has to be broken. */
    private static boolean isNameFitting(String name, double pt, double room, double height) {
        return high(Typeface.BOLD.rows(name, pt, room), pt) <= height
                && Arrays.stream(name.split(" ", -1)).allMatch(word -> Typeface.BOLD.width(word, pt) <= room);
    }

    private static double high(int rows, double pt) {
        return rows * pt * LINE_HEIGHT * MM_A_POINT;
    }

    private static List<String> fitting(List<String> all, double pt, double room, int rows) {
        var lines = new ArrayList<String>();
        int left = rows;
        for (String line : all) {
            int needed = Typeface.REGULAR.rows(line, pt, room);
            boolean isLast = lines.size() == all.size() - 1;
            if (needed + (isLast ? 0 : 1) > left) {
                if (left > 0) {
                    lines.add(all.size() == 1 ? shortened(line, pt, room) : unnamed(all.size(), lines.size()));
                }
                return lines;
            }
            lines.add(line);
            left -= needed;
        }
        return lines;
    }

    private static String unnamed(int all, int named) {
        return named == 0 ? all + " sowings" : "and " + (all - named) + " more";
    }

    /** Cut to one row. */
    private static String shortened(String words, double pt, double room) {
        String cut = words;
        while (cut.length() > 1 && Typeface.REGULAR.width(cut + "…", pt) > room) {
            cut = cut.substring(0, cut.length() - 1);
        }
        return cut + "…";
    }

    /** A size as CSS writes it. */
    static String pt(double points) {
        return String.format(Locale.ROOT, "%.1fpt", points);
    }
}
