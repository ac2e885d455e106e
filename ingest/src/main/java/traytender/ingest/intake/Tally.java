package traytender.ingest.intake;

import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import traytender.ingest.decode.Cause;
import traytender.ingest.mqtt.Incoming;

/** Counts what came in. Its lists are bounded: a sensor that makes up topics must not fill the memory. <b>Safe from any thread.</b> */
final class Tally {
    private static final int MOST_TOPICS = 1_000;
    /** Stands for all further topics. */
    private static final String FURTHER = "(further topics)";

    private final Map<Cause, Long> byCause = new EnumMap<>(Cause.class);
    private final Map<Key, Refusal> refusals = new LinkedHashMap<>();
    private final Map<String, Unassigned> unassigned = new TreeMap<>();
    private long stored;
    private long repeated;
    private long refused;
    private long unassignedMessages;

    private record Key(Cause cause, String topic) {}

    synchronized void stored(long fresh, long again) {
        stored += fresh;
        repeated += again;
    }

    synchronized void refused(Incoming message, List<Cause> causes) {
        for (Cause cause : causes) {
            refused++;
            byCause.merge(cause, 1L, Long::sum);
            var key = new Key(cause, message.topic());
            if (!refusals.containsKey(key) && refusals.size() >= MOST_TOPICS) {
                key = new Key(cause, FURTHER);
            }
            Refusal before = refusals.get(key);
            long count = before == null ? 1 : before.count() + 1;
            refusals.put(
                    key, new Refusal(cause.word(), key.topic, count, Preview.of(message.payload()), message.arrived()));
        }
    }

    synchronized void unassigned(Incoming message) {
        unassignedMessages++;
        String topic = message.topic();
        if (!unassigned.containsKey(topic) && unassigned.size() >= MOST_TOPICS) {
            topic = FURTHER;
        }
        Unassigned before = unassigned.get(topic);
        long count = before == null ? 1 : before.count() + 1;
        Instant last = message.arrived();
        unassigned.put(
                topic,
                new Unassigned(topic, Preview.of(message.payload()), Preview.whole(message.payload()), count, last));
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
        return refusals.values().stream()
                .sorted(Comparator.comparingLong(Refusal::count).reversed())
                .toList();
    }

    synchronized List<Unassigned> unassigned() {
        return List.copyOf(unassigned.values());
    }
}
