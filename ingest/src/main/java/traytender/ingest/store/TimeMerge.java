package traytender.ingest.store;

import java.util.List;
import java.util.PriorityQueue;
import java.util.function.Consumer;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;

/**
 * Merges the probes' readings into one order: time, then probe id. Each probe's readings lie together where they are kept, so
 * whatever keeps them would have to sort them all first.
 */
final class TimeMerge {
    /** Readings read ahead over all probes, about 40 bytes each; our choice. */
    private static final int AHEAD = 200_000;

    private static final int SMALLEST_PIECE = 64;
    private static final int LARGEST_PIECE = 2_000;

    private final Meaning meaning;
    private final List<ProbeCursor> cursors;

    TimeMerge(Stretch stretch, Meaning meaning, List<Probe> probes, long fromMs, long toMs) {
        this.meaning = meaning;
        var piece = Math.max(SMALLEST_PIECE, Math.min(LARGEST_PIECE, AHEAD / Math.max(1, probes.size())));
        this.cursors = probes.stream()
                .map(probe -> new ProbeCursor(stretch, probe, fromMs, toMs, piece))
                .toList();
    }

    /** Gives every reading to the consumer. */
    void giveTo(Consumer<Reading> consumer) {
        var next = new PriorityQueue<ProbeCursor>();
        for (var cursor : cursors) {
            if (cursor.fill()) {
                next.add(cursor);
            }
        }
        for (var cursor = next.poll(); cursor != null; cursor = next.poll()) {
            consumer.accept(meaning.of(cursor.probe(), cursor.take()));
            if (cursor.fill()) {
                next.add(cursor);
            }
        }
    }
}
