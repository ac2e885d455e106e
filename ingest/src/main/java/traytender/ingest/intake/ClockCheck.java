package traytender.ingest.intake;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import traytender.config.reading.Marks;
import traytender.ingest.decode.Arrival;
import traytender.ingest.mqtt.Incoming;
import traytender.ingest.store.ReadingStore;

/**
 * Whether the program's own clock can be right: it cannot when it stands before the newest reading on disk. Then no reading is
 * refused for its time, and each is marked. Readings may be five minutes ahead of a right clock, so only what stands further back is
 * shown to be wrong.
 *
 * <p>A clock that is set back while the program runs is another matter: somebody, or a time server, has just set it right, so the
 * readings that stand ahead of it prove nothing any more. How far it was set is seen by the machine's count of time since its start,
 * which nobody sets. <b>Belongs to the writer's thread</b>, but for {@link #isWrong} and {@link #setBack}.
 */
final class ClockCheck {
    /** How far ahead of the program's clock a reading may be; the contract's figure. */
    private static final long AHEAD_MS = Duration.ofMinutes(5).toMillis();

    /** How long a burst of messages on one topic is given times of its own. */
    private static final long BURST_MS = 10_000;

    private final LongSupplier nanos;
    private final Map<String, Long> lastByTopic = new HashMap<>();
    private long newestMs;
    /** The clock's time less the machine's count, both in ms, at the last message; so far apart until somebody sets the clock. */
    private long apartMs = Long.MIN_VALUE;

    private volatile boolean isWrong;
    private volatile @Nullable SetBack setBack;

    /**
     * @param nanos a count of ns that goes on evenly, whatever is done to the clock
     */
    ClockCheck(ReadingStore store, LongSupplier nanos) {
        this.nanos = nanos;
        this.newestMs = store.newestTime().map(time -> time.toEpochMilli()).orElse(Long.MIN_VALUE);
    }

    Arrival arrival(Incoming message) {
        long now = message.arrived().toEpochMilli();
        noticeSetting(now);
        isWrong = newestMs > now + AHEAD_MS;
        return new Arrival(
                ownTime(message.topic(), now),
                isWrong ? Long.MAX_VALUE : now + AHEAD_MS,
                message.isKept(),
                isWrong ? Marks.CLOCK : Marks.NONE);
    }

    private void noticeSetting(long now) {
        long apart = now - TimeUnit.NANOSECONDS.toMillis(nanos.getAsLong());
        if (apartMs != Long.MIN_VALUE && apart < apartMs - AHEAD_MS) {
            setBack = new SetBack(Instant.ofEpochMilli(now), Duration.ofMillis(apartMs - apart));
            newestMs = Math.min(newestMs, now);
        }
        apartMs = apart;
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

    /** When the clock was last set back by more than five minutes while the program ran; null when it was not. */
    @Nullable
    SetBack setBack() {
        return setBack;
    }

    boolean isWrong() {
        return isWrong;
    }
}
