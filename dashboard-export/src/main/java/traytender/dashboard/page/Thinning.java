package traytender.dashboard.page;

import java.util.ArrayList;
import java.util.List;
import traytender.config.reading.Reading;

/**
 * Fewer readings for a drawing: of each equal stretch of time only the lowest and the highest reading are kept, so that no
 * peak is lost and every point drawn was really measured.
 */
final class Thinning {
    private Thinning() {}

    /**
     * At most about so many readings, in order of time; the first and the last are always among them.
     *
     * @param readings in order of time
     * @param points at least 4
     */
    static List<Reading> thin(List<Reading> readings, int points) {
        if (readings.size() <= points) {
            return readings;
        }
        int last = readings.size() - 1;
        long start = readings.get(0).timeMs();
        long span = readings.get(last).timeMs() - start + 1;
        int stretches = (points - 2) / 2;
        var kept = new ArrayList<Reading>(points);
        int from = 0;
        for (int stretch = 1; stretch <= stretches; stretch++) {
            long end = start + span * stretch / stretches;
            int to = from;
            while (to <= last && readings.get(to).timeMs() < end) {
                to++;
            }
            keepExtremes(readings, from, to, kept);
            from = to;
        }
        return withEnds(readings, kept);
    }

    private static void keepExtremes(List<Reading> readings, int from, int to, List<Reading> kept) {
        if (from == to) {
            return;
        }
        int lowest = from;
        int highest = from;
        for (int i = from + 1; i < to; i++) {
            double value = readings.get(i).value();
            lowest = value < readings.get(lowest).value() ? i : lowest;
            highest = value > readings.get(highest).value() ? i : highest;
        }
        kept.add(readings.get(Math.min(lowest, highest)));
        if (lowest != highest) {
            kept.add(readings.get(Math.max(lowest, highest)));
        }
    }

    private static List<Reading> withEnds(List<Reading> readings, List<Reading> kept) {
        Reading first = readings.get(0);
        Reading last = readings.get(readings.size() - 1);
        if (kept.get(0).timeMs() != first.timeMs()) {
            kept.add(0, first);
        }
        if (kept.get(kept.size() - 1).timeMs() != last.timeMs()) {
            kept.add(last);
        }
        return kept;
    }
}
