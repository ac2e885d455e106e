package traytender.ingest.intake;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import traytender.config.reading.Marks;
import traytender.ingest.decode.Arrival;
import traytender.ingest.mqtt.Incoming;
import traytender.ingest.store.ReadingStore;

/**
 * Whether the program's own clock can be right: it cannot when it stands before the newest reading on disk. Then no reading is
 * refused for its time, and each is marked. Readings may be five minutes ahead of a right clock, so only what stands further back is
 * shown to be wrong. <b>Belongs to the writer's thread</b>, but for
 * {@link #isWrong}.
 */
final class ClockCheck {
    /** How far ahead of the program's clock a reading may be; the contract's figure. */
    private static final long AHEAD_MS = Duration.ofMinutes(5).toMillis();

    /** How long a burst of messages on one topic is given times of its own. */
    private static final long BURST_MS = 10_000;

    private final Map<String, Long> lastByTopic = new HashMap<>();
    private long newestMs;
    private volatile boolean isWrong;

    ClockCheck(ReadingStore store) {
        this.newestMs = store.newestTime().map(time -> time.toEpochMilli()).orElse(Long.MIN_VALUE);
    }

    Arrival arrival(Incoming message) {
        long now = message.arrived().toEpochMilli();
        isWrong = newestMs > now + AHEAD_MS;
        return new Arrival(
                ownTime(message.topic(), now),
                isWrong ? Long.MAX_VALUE : now + AHEAD_MS,
                message.isKept(),
                isWrong ? Marks.CLOCK : Marks.NONE);
    }

    /** Two messages of a topic in one millisecond are two readings: the later one is put a millisecond later. */
    private long ownTime(String topic, long now) {
        Long last = lastByTopic.get(topic);
        long time = last != null && last >= now && last < now + BURST_MS ? last + 1 : now;
        lastByTopic.put(topic, time);
        return time;
    }

    void stored(long timeMs) {
        // What comes while the clock is wrong proves nothing; else one reading of 2099 would keep the clock wrong for
        // good.
        if (!isWrong) {
            newestMs = Math.max(newestMs, timeMs);
        }
    }

    boolean isWrong() {
        return isWrong;
    }
}
