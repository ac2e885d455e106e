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
    public List<RawReading> next(String probe, long fromMs, long toMs, int most) {
        var border = borderMs.getAsLong();
        if (fromMs >= border) {
            return newer.next(probe, fromMs, toMs, most);
        }
        var old = older.next(probe, fromMs, Math.min(toMs, border), most);
        if (old.size() < most) {
            return merged(old, newer.next(probe, fromMs, toMs, most), most);
        }
        // What the newer stretch has after these belongs to a later piece.
        return merged(old, newer.next(probe, fromMs, old.get(most - 1).timeMs() + 1, most), most);
    }

    private static List<RawReading> merged(List<RawReading> old, List<RawReading> young, int most) {
        if (young.isEmpty()) {
            return old;
        }
        var both = new ArrayList<RawReading>(Math.min(most, old.size() + young.size()));
        var i = 0;
        var j = 0;
        while (both.size() < most && (i < old.size() || j < young.size())) {
            if (j == young.size()
                    || (i < old.size() && old.get(i).timeMs() < young.get(j).timeMs())) {
                both.add(old.get(i++));
                continue;
            }
            if (i < old.size() && old.get(i).timeMs() == young.get(j).timeMs()) {
                i++;
            }
            both.add(young.get(j++));
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
