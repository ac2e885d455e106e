package traytender.ingest.intake;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import traytender.ingest.store.AppendResult;
import traytender.ingest.store.ForwardingStore;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;
import traytender.ingest.store.StoreException;

/** A real store on a disk that can be full. */
final class TroubledStore extends ForwardingStore {
    private final AtomicInteger refused = new AtomicInteger();
    private volatile boolean isFull;

    TroubledStore(ReadingStore store) {
        super(store);
    }

    void fill(boolean full) {
        isFull = full;
    }

    /** How many appends the full disk refused. */
    int refused() {
        return refused.get();
    }

    @Override
    public AppendResult append(List<RawReading> readings) {
        if (isFull) {
            refused.incrementAndGet();
            throw new StoreException(StoreException.Trouble.DISK_FULL, "the disk is full", null);
        }
        return super.append(readings);
    }
}
