package traytender.rules;

import traytender.rules.bench.Unit;
import traytender.rules.judge.Judge;

/** A unit and how far it has come: the one way, live and in replay, in which minutes are looked at. <b>Not thread-safe.</b> */
final class Advance {
    private final Unit unit;
    private long lookedMs;

    /**
     * A unit that has come to the end of this minute.
     *
     * @param lookedMs {@link Long#MIN_VALUE} for one that has not begun
     */
    Advance(Unit unit, long lookedMs) {
        this.unit = unit;
        this.lookedMs = lookedMs;
    }

    /** Looks at every listened minute that ends by this time and was not looked at yet. */
    void to(long timeMs, Listening listening, Judge judge) {
        long from = lookedMs == Long.MIN_VALUE ? Long.MIN_VALUE : lookedMs + Listening.MINUTE_MS;
        if (from > timeMs) {
            return;
        }
        for (long minute = listening.next(from);
                minute <= timeMs;
                minute = listening.next(lookedMs + Listening.MINUTE_MS)) {
            unit.look(minute, judge);
            lookedMs = minute;
        }
    }

    Unit unit() {
        return unit;
    }

    /** The end of the minute looked at last; {@link Long#MIN_VALUE} before the first. */
    long lookedMs() {
        return lookedMs;
    }

    /** A copy of both. */
    Advance copy() {
        return new Advance(unit.copy(), lookedMs);
    }
}
