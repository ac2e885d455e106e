package traytender.ingest.intake;

import java.time.Duration;
import traytender.config.reading.Marks;
import traytender.ingest.decode.Arrival;
import traytender.ingest.mqtt.Incoming;
import traytender.ingest.store.ReadingStore;

/**
 * Whether the program's own clock can be right: it cannot when it stands before the newest reading on disk. Then no reading is
 * refused for its time, and those that have no time of their own are marked. <b>Belongs to the writer's thread</b>, but for
 * {@link #isWrong}.
 */
final class ClockCheck {
    /** How far ahead of the program's clock a reading may be; the contract's figure. */
    private static final long AHEAD_MS = Duration.ofMinutes(5).toMillis();

    private long newestMs;
    private volatile boolean isWrong;

    ClockCheck(ReadingStore store) {
        this.newestMs = store.newestTime().map(time -> time.toEpochMilli()).orElse(Long.MIN_VALUE);
    }

    Arrival arrival(Incoming message) {
        long now = message.arrived().toEpochMilli();
        isWrong = newestMs > now + AHEAD_MS;
        return new Arrival(
                now, isWrong ? Long.MAX_VALUE : now + AHEAD_MS, message.isKept(), isWrong ? Marks.CLOCK : Marks.NONE);
    }

    void stored(long timeMs) {
        newestMs = Math.max(newestMs, timeMs);
    }

    boolean isWrong() {
        return isWrong;
    }
}
