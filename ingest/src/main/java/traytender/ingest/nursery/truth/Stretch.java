package traytender.ingest.nursery.truth;

import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;

/**
 * Minutes of a trace in which something holds.
 *
 * @param from first minute, inclusive
 * @param to last minute, exclusive
 */
record Stretch(int from, int to) {
    int minutes() {
        return to - from;
    }

    boolean holds(int minute) {
        return minute >= from && minute < to;
    }

    /** Every longest stretch of a span in which the condition holds. */
    static List<Stretch> where(int from, int to, IntPredicate condition) {
        var found = new ArrayList<Stretch>();
        int begin = -1;
        for (int minute = from; minute < to; minute++) {
            boolean holds = condition.test(minute);
            if (holds && begin < 0) {
                begin = minute;
            } else if (!holds && begin >= 0) {
                found.add(new Stretch(begin, minute));
                begin = -1;
            }
        }
        if (begin >= 0) {
            found.add(new Stretch(begin, to));
        }
        return found;
    }
}
