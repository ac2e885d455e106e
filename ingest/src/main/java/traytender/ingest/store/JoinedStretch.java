package traytender.ingest.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.LongSupplier;

/**
 * Two stretches read as one. The older one is asked only for times before a border, so that what is new never waits for it; where
 * both have a reading of the same probe and time, the newer stretch's counts. They may overlap: a late reading lands in the newer
 * one.
 */
final class JoinedStretch implements Stretch {
    private final Stretch older;
    private final Stretch newer;
    private final LongSupplier borderMs;

    /** @param borderMs from this time on, in ms since 1970, the newer stretch has everything */
    JoinedStretch(Stretch older, Stretch newer, LongSupplier borderMs) {
        this.older = older;
        this.newer = newer;
        this.borderMs = borderMs;
    }

    @Override
    public List<RawReading> next(String probe, long fromMs, long toMs, int wanted) {
        var border = borderMs.getAsLong();
        if (fromMs >= border) {
            return newer.next(probe, fromMs, toMs, wanted);
        }
        return join(
                older.next(probe, fromMs, Math.min(toMs, border), wanted),
                toMs,
                wanted,
                to -> newer.next(probe, fromMs, to, wanted));
    }

    /** What a newer stretch has up to a time. */
    @FunctionalInterface
    interface Newer<E extends Exception> {
        List<RawReading> upTo(long toMs) throws E;
    }

    /** One piece out of an older stretch's piece and what a newer one has in the same time. */
    static <E extends Exception> List<RawReading> join(List<RawReading> old, long toMs, int wanted, Newer<E> newer)
            throws E {
        if (old.size() < wanted) {
            return merged(old, newer.upTo(toMs), wanted);
        }
        // What the newer stretch has after these belongs to a later piece.
        return merged(old, newer.upTo(old.get(old.size() - 1).timeMs() + 1), wanted);
    }

    private static List<RawReading> merged(List<RawReading> old, List<RawReading> young, int wanted) {
        if (young.isEmpty()) {
            return old;
        }
        // A young piece that is full says nothing of what comes after it.
        long endMs = young.size() < wanted
                ? Long.MAX_VALUE
                : young.get(young.size() - 1).timeMs();
        var both = new ArrayList<RawReading>(old.size() + young.size());
        var i = 0;
        for (var reading : young) {
            while (i < old.size() && old.get(i).timeMs() < reading.timeMs()) {
                both.add(old.get(i++));
            }
            if (i < old.size() && old.get(i).timeMs() == reading.timeMs()) {
                i++;
            }
            both.add(reading);
        }
        while (i < old.size() && old.get(i).timeMs() <= endMs) {
            both.add(old.get(i++));
        }
        return both;
    }

    @Override
    public Optional<RawReading> last(String probe) {
        var young = newer.last(probe);
        if (young.isPresent() && young.get().timeMs() >= borderMs.getAsLong()) {
            return young;
        }
        var old = older.last(probe);
        return old.isEmpty()
                        || (young.isPresent()
                                && young.get().timeMs() >= old.get().timeMs())
                ? young
                : old;
    }

    @Override
    public List<Extent> extents() {
        if (borderMs.getAsLong() == Long.MIN_VALUE) {
            return newer.extents();
        }
        Map<String, Extent> both = new TreeMap<>();
        newer.extents().forEach(extent -> both.put(extent.probe(), extent));
        older.extents().forEach(extent -> both.merge(extent.probe(), extent, Extent::with));
        return List.copyOf(both.values());
    }
}
