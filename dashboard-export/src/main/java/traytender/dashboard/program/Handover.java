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

    /**
     * Hands over: from now on the watch takes readings as they come. It does not wait for a moment without any, for under load
     * there is none.
     *
     * @return from when on the store has to be read once more, in ms since 1970; empty when nothing was missed. What comes
     *     meanwhile may be met twice, which changes nothing.
     */
    synchronized OptionalLong goLive() {
        live = true;
        return missedFromMs == Long.MAX_VALUE ? OptionalLong.empty() : OptionalLong.of(missedFromMs);
    }
}
