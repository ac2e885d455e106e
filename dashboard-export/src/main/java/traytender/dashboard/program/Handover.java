package traytender.dashboard.program;

import java.util.List;
import java.util.OptionalLong;
import traytender.config.reading.Reading;

/**
 * Who sees to new readings while stored history is still being evaluated: nobody at once. They are on disk already, so it is
 * enough to remember from when on the store has to be read again. <b>Safe from any thread.</b>
 */
final class Handover {
    private boolean live;
    private long missedFromMs = Long.MAX_VALUE;

    /** Whether these readings wait in the store; false once the watch takes them as they come. */
    synchronized boolean waitsInStore(List<Reading> readings) {
        if (live) {
            return false;
        }
        for (Reading reading : readings) {
            missedFromMs = Math.min(missedFromMs, reading.timeMs());
        }
        return true;
    }

    /** From when on the store has to be read again, in ms since 1970; empty when nothing was missed, and from then on it is live. */
    synchronized OptionalLong missed() {
        if (missedFromMs == Long.MAX_VALUE) {
            live = true;
            return OptionalLong.empty();
        }
        var from = OptionalLong.of(missedFromMs);
        missedFromMs = Long.MAX_VALUE;
        return from;
    }
}
