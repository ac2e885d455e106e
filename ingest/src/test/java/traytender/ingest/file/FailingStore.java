package traytender.ingest.file;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;
import traytender.ingest.store.AppendResult;
import traytender.ingest.store.Extent;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;

/** A real store that breaks down after so many readings, as a program does that is killed. */
final class FailingStore implements ReadingStore {
    private final ReadingStore store;
    private long left;

    FailingStore(ReadingStore store, long left) {
        this.store = store;
        this.left = left;
    }

    @Override
    public AppendResult append(List<RawReading> readings) {
        left -= readings.size();
        if (left < 0) {
            throw new IllegalStateException("broken down");
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
