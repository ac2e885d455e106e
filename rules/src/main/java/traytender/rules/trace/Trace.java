package traytender.rules.trace;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;

/**
 * One probe's readings over a span, taken as a line from reading to reading; where they lie too far apart it is a gap, and
 * nothing is made up for it.
 */
public final class Trace {
    /** Readings further apart than this many expected intervals have a gap between them; our choice. */
    private static final int INTERVALS = 4;

    private static final Duration SHORTEST_GAP = Duration.ofMinutes(20);

    private static final double MS_PER_HOUR = 3_600_000.0;

    private final List<Reading> readings;
    private final long fromMs;
    private final long toMs;
    private final long longestMs;

    /**
     * @param from inclusive
     * @param to exclusive
     * @param longest readings further apart have a gap between them
     */
    public Trace(List<Reading> all, Instant from, Instant to, Duration longest) {
        this.fromMs = from.toEpochMilli();
        this.toMs = to.toEpochMilli();
        this.longestMs = longest.toMillis();
        List<Reading> kept = new ArrayList<>();
        for (Reading reading : inOrder(all)) {
            boolean inside = reading.timeMs() >= fromMs && reading.timeMs() < toMs;
            boolean repeated = !kept.isEmpty() && kept.get(kept.size() - 1).timeMs() == reading.timeMs();
            if (inside && !repeated && isUsable(reading)) {
                kept.add(reading);
            }
        }
        this.readings = kept;
    }

    private static boolean isUsable(Reading reading) {
        return !reading.has(Marks.RANGE) && !reading.has(Marks.SENSOR_ERROR);
    }

    /** A store gives them in order already. */
    private static List<Reading> inOrder(List<Reading> all) {
        for (int i = 1; i < all.size(); i++) {
            if (all.get(i).timeMs() < all.get(i - 1).timeMs()) {
                return all.stream()
                        .sorted(Comparator.comparingLong(Reading::timeMs))
                        .toList();
            }
        }
        return all;
    }

    /** Readings further apart than this have a gap between them. */
    public static Duration longestPause(Probe probe) {
        Duration every = probe.every();
        Duration several = every == null ? SHORTEST_GAP : every.multipliedBy(INTERVALS);
        return several.compareTo(SHORTEST_GAP) < 0 ? SHORTEST_GAP : several;
    }

    /** How many readings counted. */
    public int count() {
        return readings.size();
    }

    /** The lowest reading; null without one. */
    public @Nullable Reading lowest() {
        return readings.stream().min(Comparator.comparingDouble(Reading::value)).orElse(null);
    }

    /** The highest reading; null without one. */
    public @Nullable Reading highest() {
        return readings.stream().max(Comparator.comparingDouble(Reading::value)).orElse(null);
    }

    /** Time-weighted mean; NaN without a reading. */
    public double mean() {
        var sum = new double[2];
        eachPiece((hours, first, last) -> {
            sum[0] += hours * (first + last) / 2;
            sum[1] += hours;
        });
        return sum[1] > 0 ? sum[0] / sum[1] : Double.NaN;
    }

    /** Hours and value-hours on one side of a limit. */
    public Beyond beyond(double limit, boolean above) {
        var sum = new double[2];
        double sign = above ? 1 : -1;
        eachPiece((hours, first, last) -> {
            double from = sign * (first - limit);
            double to = sign * (last - limit);
            double share =
                    from > 0 && to > 0 ? 1 : Math.max(from, to) <= 0 ? 0 : Math.max(from, to) / Math.abs(to - from);
            double mean = share == 1 ? (from + to) / 2 : Math.max(from, to) / 2;
            sum[0] += hours * share;
            sum[1] += share == 0 ? 0 : hours * share * mean;
        });
        return new Beyond(limit, sum[0], sum[1]);
    }

    /** The stretches in which nothing was heard. */
    public List<Gap> gaps() {
        var gaps = new ArrayList<Gap>();
        long before = fromMs;
        for (Reading reading : readings) {
            addGap(gaps, before, reading.timeMs());
            before = reading.timeMs();
        }
        addGap(gaps, before, toMs);
        return gaps;
    }

    private void addGap(List<Gap> gaps, long from, long to) {
        if (to - from > longestMs) {
            gaps.add(new Gap(Instant.ofEpochMilli(from), Instant.ofEpochMilli(to)));
        }
    }

    /** A stretch over which the value runs straight. */
    @FunctionalInterface
    private interface Piece {
        void take(double hours, double first, double last);
    }

    private void eachPiece(Piece piece) {
        if (readings.isEmpty()) {
            return;
        }
        Reading first = readings.get(0);
        hold(piece, fromMs, first.timeMs(), first.value());
        for (int i = 1; i < readings.size(); i++) {
            Reading a = readings.get(i - 1);
            Reading b = readings.get(i);
            if (b.timeMs() - a.timeMs() <= longestMs) {
                piece.take((b.timeMs() - a.timeMs()) / MS_PER_HOUR, a.value(), b.value());
            }
        }
        Reading last = readings.get(readings.size() - 1);
        hold(piece, last.timeMs(), toMs, last.value());
    }

    /** The ends of the span, before the first and after the last reading. */
    private void hold(Piece piece, long from, long to, double value) {
        if (to > from && to - from <= longestMs) {
            piece.take((to - from) / MS_PER_HOUR, value, value);
        }
    }
}
