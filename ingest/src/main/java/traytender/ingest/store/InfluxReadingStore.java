package traytender.ingest.store;

import java.nio.file.Path;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.config.site.StoreSettings.Influx;

/**
 * Readings in InfluxDB, as {@link InfluxLayout} draws them. The program itself keeps readings in SQLite first, sends them here by
 * {@link InfluxOutbox}, and reads back what it no longer has itself.
 *
 * <p>InfluxDB overwrites a reading of the same probe and time, so an append looks first: it is slower than the outbox, and two
 * programs that append the same reading at the same moment are not kept apart.
 */
public final class InfluxReadingStore implements ReadingStore {
    private static final int PIECE = 5_000;

    private final InfluxServer server;
    private final InfluxLayout layout;
    private final Stretch stretch;
    private final ReadingHistory history;

    private InfluxReadingStore(InfluxServer server, Site site, Meaning meaning) {
        this.server = server;
        this.layout = new InfluxLayout(site, meaning);
        this.stretch = new InfluxStretch(server);
        this.history = new StretchHistory(stretch, meaning);
    }

    /**
     * A store at a server; nothing is sent yet.
     *
     * @param folder the site folder, which password and token files are relative to
     * @throws StoreException when such a file cannot be read
     */
    public static InfluxReadingStore at(Influx settings, Path folder, Site site, Meaning meaning) {
        return new InfluxReadingStore(InfluxServer.of(settings, folder), site, meaning);
    }

    /** All that this server has. */
    Stretch stretch() {
        return stretch;
    }

    @Override
    public synchronized AppendResult append(List<RawReading> readings) {
        var taken = taken(readings);
        var fresh = readings.stream()
                .filter(reading -> taken.add(new Place(reading.probe(), reading.timeMs())))
                .toList();
        if (!fresh.isEmpty()) {
            server.writeWhole(fresh.stream().map(layout::point).toList());
        }
        return new AppendResult(fresh, readings.size() - fresh.size());
    }

    private record Place(String probe, long timeMs) {}

    /** Where there is a reading already, of each probe from the first to the last of these. */
    private Set<Place> taken(List<RawReading> readings) {
        var taken = new HashSet<Place>();
        readings.stream().collect(Collectors.groupingBy(RawReading::probe)).forEach((probe, ofProbe) -> {
            var times = ofProbe.stream().mapToLong(RawReading::timeMs).summaryStatistics();
            each(probe, times.getMin(), times.getMax() + 1, reading -> taken.add(new Place(probe, reading.timeMs())));
        });
        return taken;
    }

    private void each(String probe, long fromMs, long toMs, Consumer<RawReading> consumer) {
        var next = fromMs;
        for (int found = PIECE; found >= PIECE; ) {
            var piece = stretch.next(probe, next, toMs, PIECE);
            piece.forEach(consumer);
            found = piece.size();
            next = found == 0 ? toMs : piece.get(found - 1).timeMs() + 1;
        }
    }

    @Override
    public ReadingSource source(List<Probe> probes) {
        return history.source(probes);
    }

    @Override
    public List<Reading> readings(Probe probe, Instant from, Instant to) {
        return history.readings(probe, from, to);
    }

    @Override
    public Optional<Reading> latest(Probe probe) {
        return history.latest(probe);
    }

    @Override
    public List<Extent> extents() {
        return history.extents();
    }

    @Override
    public Optional<Instant> newestTime() {
        return extents().stream().map(Extent::last).max(Instant::compareTo);
    }

    @Override
    public long count() {
        return countBefore(Long.MAX_VALUE);
    }

    private long countBefore(long timeMs) {
        var counted = new AtomicLong();
        extents().forEach(extent -> each(extent.probe(), Long.MIN_VALUE, timeMs, reading -> counted.incrementAndGet()));
        return counted.get();
    }

    /** InfluxDB does not say how many it removed: they are counted before. */
    @Override
    public synchronized long removeBefore(Instant time) {
        var beforeMs = Times.ceilingMs(time);
        var removed = countBefore(beforeMs);
        server.change("DELETE FROM " + InfluxLayout.MEASUREMENT + " WHERE time < " + beforeMs + "ms");
        return removed;
    }

    @Override
    public void close() {
        server.close();
    }
}
