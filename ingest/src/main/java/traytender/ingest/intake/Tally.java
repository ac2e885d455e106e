package traytender.ingest.intake;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import traytender.ingest.decode.Cause;
import traytender.ingest.mqtt.Incoming;

/** Counts what came in. Its lists are bounded: a sensor that makes up topics must not fill the memory. <b>Safe from any thread.</b> */
final class Tally {
    private static final int MOST_TOPICS = 1_000;
    /** In characters; MQTT lets a topic have 64 KiB, of which a thousand would not fit on a small machine. Our choice. */
    private static final int LONGEST_TOPIC = 500;
    /** Stands for all further topics. */
    private static final String FURTHER = "(further topics)";

    private final Map<Cause, Long> byCause = new EnumMap<>(Cause.class);
    private final Map<Key, Heard> refusals = new LinkedHashMap<>();
    private final Map<String, Heard> unassigned = new TreeMap<>();
    private long stored;
    private long repeated;
    private long refused;
    private long unassignedMessages;

    private record Key(Cause cause, String topic) {}

    /** Of what came so often, the newest: as much of it as can be shown. It is made readable only when somebody looks. */
    @SuppressWarnings("ArrayRecordComponent") // Never compared, and never changed.
    private record Heard(long count, byte[] beginning, boolean isWhole, Instant last) {
        static Heard after(@Nullable Heard before, Incoming message, int most) {
            byte[] payload = message.payload();
            int length = Math.min(payload.length, most);
            long count = before == null ? 1 : before.count + 1;
            return new Heard(count, Arrays.copyOf(payload, length), length == payload.length, message.arrived());
        }
    }

    synchronized void stored(long fresh, long again) {
        stored += fresh;
        repeated += again;
    }

    synchronized void refused(Incoming message, List<Cause> causes) {
        for (Cause cause : causes) {
            refused++;
            byCause.merge(cause, 1L, Long::sum);
            var key = new Key(cause, message.topic());
            if (!refusals.containsKey(key) && isTooMuch(message.topic(), refusals.size())) {
                key = new Key(cause, FURTHER);
            }
            refusals.put(key, Heard.after(refusals.get(key), message, Preview.BYTES + 1));
        }
    }

    synchronized void unassigned(Incoming message) {
        unassignedMessages++;
        String topic = message.topic();
        if (!unassigned.containsKey(topic) && isTooMuch(topic, unassigned.size())) {
            topic = FURTHER;
        }
        unassigned.put(topic, Heard.after(unassigned.get(topic), message, Preview.MOST));
    }

    private static boolean isTooMuch(String topic, int listed) {
        return listed >= MOST_TOPICS || topic.length() > LONGEST_TOPIC;
    }

    /** Probes name these topics now. */
    synchronized void assigned(Collection<String> topics) {
        unassigned.keySet().removeAll(topics);
    }

    synchronized Counts counts() {
        Map<String, Long> words = new TreeMap<>();
        byCause.forEach((cause, count) -> words.put(cause.word(), count));
        return new Counts(stored + repeated + refused, stored, repeated, refused, unassignedMessages, words);
    }

    synchronized List<Refusal> refusals() {
        return refusals.entrySet().stream()
                .map(entry -> refusal(entry.getKey(), entry.getValue()))
                .sorted(Comparator.comparingLong(Refusal::count).reversed())
                .toList();
    }

    synchronized List<Unassigned> unassigned() {
        return unassigned.entrySet().stream()
                .map(entry -> unassigned(entry.getKey(), entry.getValue()))
                .toList();
    }

    private static Refusal refusal(Key key, Heard heard) {
        String firstBytes = Preview.of(heard.beginning());
        return new Refusal(key.cause().word(), key.topic(), heard.count(), firstBytes, heard.last());
    }

    private static Unassigned unassigned(String topic, Heard heard) {
        String whole = heard.isWhole() ? new String(heard.beginning(), StandardCharsets.UTF_8) : "";
        return new Unassigned(topic, Preview.of(heard.beginning()), whole, heard.count(), heard.last());
    }
}
