package traytender.ingest.decode;

import java.util.Collections;
import java.util.List;
import traytender.ingest.store.RawReading;

/**
 * What one message gave.
 *
 * @param readings what can be stored
 * @param refusals one for each value that cannot; one for each of the topic's probes when the message as a whole cannot be used
 */
public record Decoded(List<RawReading> readings, List<Cause> refusals) {
    public Decoded {
        readings = List.copyOf(readings);
        refusals = List.copyOf(refusals);
    }

    static Decoded refused(Cause cause, int probes) {
        return new Decoded(List.of(), Collections.nCopies(probes, cause));
    }
}
