package traytender.ingest.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;

/** The readings of a stretch, with their meaning. */
final class StretchHistory implements ReadingHistory {
    /** Readings asked for at one time; our choice, some 200 kB. */
    private static final int PIECE = 5_000;

    private final Stretch stretch;
    private final Meaning meaning;

    StretchHistory(Stretch stretch, Meaning meaning) {
        this.stretch = stretch;
        this.meaning = meaning;
    }

    @Override
    public ReadingSource source(List<Probe> probes) {
        return (fromMs, toMs, consumer) -> new TimeMerge(stretch, meaning, probes, fromMs, toMs).giveTo(consumer);
    }

    @Override
    public List<Reading> readings(Probe probe, Instant from, Instant to) {
        var readings = new ArrayList<Reading>();
        var cursor = new ProbeCursor(stretch, probe, Times.ceilingMs(from), Times.ceilingMs(to), PIECE);
        while (cursor.fill()) {
            readings.add(meaning.of(probe, cursor.take()));
        }
        return readings;
    }

    @Override
    public Optional<Reading> latest(Probe probe) {
        return stretch.last(probe.id()).map(raw -> meaning.of(probe, raw));
    }

    @Override
    public List<Extent> extents() {
        return stretch.extents();
    }
}
