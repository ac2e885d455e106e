package traytender.ingest.store;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;

/** A store on a real file that seals every day it has, again and again. */
final class SealedStores extends ForwardingStore {
    static final ZoneId DUBLIN = ZoneId.of("Europe/Dublin");
    static final Instant LATER = Instant.parse("2100-01-01T00:00:00Z");

    private final SqliteReadingStore store;
    private final int every;
    private final AtomicInteger appends = new AtomicInteger();

    private SealedStores(SqliteReadingStore store, int every) {
        super(store);
        this.store = store;
        this.every = every;
    }

    /** @param every 1 seals after every append, 2 after every other one, so that sealed and open readings lie among each other */
    static ReadingStore sealing(Path data, int every) {
        return new SealedStores(SqliteReadingStore.open(data, Bench.DOUBLED), every);
    }

    @Override
    public AppendResult append(List<RawReading> readings) {
        AppendResult result = super.append(readings);
        if (appends.incrementAndGet() % every == 0) {
            store.sealBefore(LATER, DUBLIN);
        }
        return result;
    }
}
