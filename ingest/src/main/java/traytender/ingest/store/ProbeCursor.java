package traytender.ingest.store;

import java.util.List;
import traytender.config.site.Probe;

/** Where a scan stands in one probe's readings: a small piece read ahead, and the place to read on from. */
final class ProbeCursor implements Comparable<ProbeCursor> {
    private final Stretch stretch;
    private final Probe probe;
    private final long toMs;
    private final int wanted;
    private List<RawReading> piece = List.of();
    private long nextFromMs;
    private int at;
    private boolean exhausted;

    /** @param wanted readings read ahead */
    ProbeCursor(Stretch stretch, Probe probe, long fromMs, long toMs, int wanted) {
        this.stretch = stretch;
        this.probe = probe;
        this.nextFromMs = fromMs;
        this.toMs = toMs;
        this.wanted = wanted;
    }

    /** Reads the next piece when this one is used up, and answers whether there is a reading at this cursor. */
    boolean fill() {
        if (at < piece.size()) {
            return true;
        }
        if (exhausted) {
            return false;
        }
        piece = stretch.next(probe.id(), nextFromMs, toMs, wanted);
        at = 0;
        exhausted = piece.size() < wanted;
        if (!piece.isEmpty()) {
            nextFromMs = piece.get(piece.size() - 1).timeMs() + 1;
        }
        return !piece.isEmpty();
    }

    Probe probe() {
        return probe;
    }

    RawReading take() {
        return piece.get(at++);
    }

    @Override
    public int compareTo(ProbeCursor other) {
        var byTime =
                Long.compare(piece.get(at).timeMs(), other.piece.get(other.at).timeMs());
        return byTime != 0 ? byTime : probe.id().compareTo(other.probe.id());
    }
}
