package traytender.ingest.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;

/** A real store of which a test changes how readings are appended. */
public abstract class ForwardingStore implements ReadingStore {
    private final ReadingStore store;

    protected ForwardingStore(ReadingStore store) {
        this.store = store;
    }

    @Override
    public AppendResult append(List<RawReading> readings) {
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
