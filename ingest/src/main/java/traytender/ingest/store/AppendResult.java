package traytender.ingest.store;

import java.util.List;

/**
 * What became of the readings given to {@link ReadingStore#append}: each one is either fresh or repeated.
 *
 * @param fresh those that were not there before, now on disk, in the order given
 * @param repeated how many were already there, or twice in the group
 */
public record AppendResult(List<RawReading> fresh, int repeated) {
    public AppendResult {
        fresh = List.copyOf(fresh);
    }

    /** How many were not there before. */
    public int stored() {
        return fresh.size();
    }
}
