package traytender.rules;

import java.util.List;
import traytender.config.reading.Reading;

/** The remembered readings of several probes from a time on, in order of time, and of probe where times are equal. */
final class Merge {
    private final List<ProbeMemory> memories;
    private final int[] next;
    private int first = -1;

    /**
     * From a time on, inclusive.
     *
     * @param memories in order of probe id
     */
    Merge(List<ProbeMemory> memories, long fromMs) {
        this.memories = memories;
        this.next = new int[memories.size()];
        for (int i = 0; i < next.length; i++) {
            next[i] = memories.get(i).firstNotBefore(fromMs);
        }
        find();
    }

    private void find() {
        first = -1;
        long best = Long.MAX_VALUE;
        for (int i = 0; i < next.length; i++) {
            ProbeMemory memory = memories.get(i);
            if (next[i] < memory.size() && memory.timeMs(next[i]) < best) {
                best = memory.timeMs(next[i]);
                first = i;
            }
        }
    }

    /** The next reading's time; {@link Long#MAX_VALUE} when there is none. */
    long timeMs() {
        return first < 0 ? Long.MAX_VALUE : memories.get(first).timeMs(next[first]);
    }

    /** The next reading; call only when there is one. */
    Reading take() {
        Reading reading = memories.get(first).get(next[first]);
        next[first]++;
        find();
        return reading;
    }
}
