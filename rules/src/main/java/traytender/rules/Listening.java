package traytender.rules;

import java.util.ArrayList;
import java.util.List;

/**
 * When the program listened, as the readings themselves tell it: a minute counts when some probe of the site was heard in the
 * half hour before its end. So live and replay agree, a night with the program off is nobody's silence, and long gaps are
 * skipped. <b>Not thread-safe.</b>
 */
final class Listening {
    static final long MINUTE_MS = 60_000;
    /** For how long after a reading the program counts as listening; our choice, shorter than any probe's allowed silence. */
    static final long TAIL_MS = 30 * MINUTE_MS;

    private final List<long[]> stretches = new ArrayList<>();

    /**
     * Notes a reading.
     *
     * @return whether minutes between earlier and later readings became listened that were not
     */
    boolean add(long timeMs) {
        int last = stretches.size() - 1;
        if (last < 0 || timeMs >= stretches.get(last)[0]) {
            extend(last, timeMs);
            return false;
        }
        for (int i = last; i >= 0; i--) {
            long[] stretch = stretches.get(i);
            if (timeMs >= stretch[0]) {
                return fill(i, timeMs);
            }
        }
        stretches.add(0, new long[] {timeMs, timeMs + TAIL_MS});
        merge(0);
        return true;
    }

    private void extend(int last, long timeMs) {
        if (last >= 0 && timeMs <= stretches.get(last)[1]) {
            stretches.get(last)[1] = Math.max(stretches.get(last)[1], timeMs + TAIL_MS);
            return;
        }
        stretches.add(new long[] {timeMs, timeMs + TAIL_MS});
    }

    private boolean fill(int i, long timeMs) {
        long[] stretch = stretches.get(i);
        if (timeMs + TAIL_MS <= stretch[1]) {
            return false;
        }
        if (timeMs <= stretch[1]) {
            stretch[1] = timeMs + TAIL_MS;
            merge(i);
        } else {
            stretches.add(i + 1, new long[] {timeMs, timeMs + TAIL_MS});
            merge(i + 1);
        }
        return true;
    }

    private void merge(int i) {
        while (i + 1 < stretches.size() && stretches.get(i + 1)[0] <= stretches.get(i)[1]) {
            stretches.get(i)[1] = Math.max(stretches.get(i)[1], stretches.get(i + 1)[1]);
            stretches.remove(i + 1);
        }
    }

    /** The first end of a minute, not before this one, that is listened; {@link Long#MAX_VALUE} when none is known yet. */
    long next(long minuteMs) {
        int low = 0;
        int high = stretches.size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (stretches.get(middle)[1] < minuteMs) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        for (int i = low; i < stretches.size(); i++) {
            long first = Math.max(minuteMs, minuteAfter(stretches.get(i)[0]));
            if (first <= stretches.get(i)[1]) {
                return first;
            }
        }
        return Long.MAX_VALUE;
    }

    /** The end of the minute in which a time lies. */
    static long minuteAfter(long timeMs) {
        return (Math.floorDiv(timeMs, MINUTE_MS) + 1) * MINUTE_MS;
    }
}
