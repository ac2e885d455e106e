package traytender.ingest.store;

import java.util.List;

/**
 * Some readings that are next to be sent.
 *
 * @param readings in the order they are sent in
 * @param places where they stand in the outbox; empty for a stretch of history
 * @param historyOf the number of the probe whose history this is; 0 when it is none
 */
record OutboxParcel(List<RawReading> readings, List<Long> places, int historyOf) {
    OutboxParcel {
        readings = List.copyOf(readings);
        places = List.copyOf(places);
    }

    boolean isHistory() {
        return historyOf != 0;
    }
}
