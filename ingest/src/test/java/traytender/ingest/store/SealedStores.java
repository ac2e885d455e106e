package traytender.ingest.store;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;

/** A store on a real file that seals every day it has, again and again. */
final class SealedStores implements ReadingStore {
    static final ZoneId DUBLIN = ZoneId.of("Europe/Dublin");
    static final Instant LATER = Instant.parse("2100-01-01T00:00:00Z");

    private final SqliteReadingStore store;
    private final int every;
    private final AtomicInteger appends = new AtomicInteger();

    private SealedStores(SqliteReadingStore store, int every) {
        this.store = store;
        this.every = every;
    }

    /** @param every 1 seals after every append, 2 after every other one, so that sealed and open readings lie among each other */
    static ReadingStore sealing(Path data, int every) {
        return new SealedStores(SqliteReadingStore.open(data, Bench.DOUBLED), every);
    }

    @Override
    public AppendResult append(List<RawReading> readings) {
        var result = store.append(readings);
        if (appends.incrementAndGet() % every == 0) {
            store.sealBefore(LATER, DUBLIN);
        }
        return result;
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
    public List<Extent> extents() {
        return store.extents();
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
    public long removeBefore(Instant time) {
        return store.removeBefore(time);
    }

    @Override
    public void close() {
        store.close();
    }
}
