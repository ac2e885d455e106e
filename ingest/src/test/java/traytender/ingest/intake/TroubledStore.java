package traytender.ingest.intake;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;
import traytender.ingest.store.AppendResult;
import traytender.ingest.store.Extent;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;
import traytender.ingest.store.StoreException;

/** A real store on a disk that can be full. */
final class TroubledStore implements ReadingStore {
    private final ReadingStore store;
    private final AtomicInteger refused = new AtomicInteger();
    private volatile boolean isFull;

    TroubledStore(ReadingStore store) {
        this.store = store;
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
        return store.append(readings);
    }

    @Override
    public ReadingSource source(List<Probe> probes) {
        return store.source(probes);
    }

    @Override
    public List<Reading> readings(Probe probe, Instant from, Instant to) {
        return store.readings(probe, from, to);
    }

    @Override
    public Optional<Reading> latest(Probe probe) {
        return store.latest(probe);
    }

    @Override
    public Optional<Instant> newestTime() {
        return store.newestTime();
    }

    @Override
    public long count() {
        return store.count();
    }

    @Override
    public List<Extent> extents() {
        return store.extents();
    }

    @Override
    public long removeBefore(Instant time) {
        return store.removeBefore(time);
    }

    @Override
    public void close() {
        store.close();
    }
}
