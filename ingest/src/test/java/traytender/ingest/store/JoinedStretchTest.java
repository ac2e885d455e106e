package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Size;

/** Two stretches, read piece by piece in whatever size, give every time once, in order, and the newer one's word where both have it. */
class JoinedStretchTest {
    @Property(seed = "20260314", tries = 2_000)
    void pieces_giveEveryTimeOnce_inOrder(
            @ForAll @Size(max = 40) Set<@LongRange(min = 0, max = 60) Long> old,
            @ForAll @Size(max = 40) Set<@LongRange(min = 0, max = 60) Long> young,
            @ForAll @LongRange(min = 0, max = 61) long border,
            @ForAll @IntRange(min = 1, max = 9) int most,
            @ForAll @LongRange(min = 0, max = 61) long from,
            @ForAll @LongRange(min = 0, max = 61) long to) {
        var joined = new JoinedStretch(new Shelf(old, 1), new Shelf(young, 2), () -> border);

        var expected = new TreeMap<Long, Double>();
        old.stream().filter(time -> time < border).forEach(time -> expected.put(time, 1.0));
        young.forEach(time -> expected.put(time, 2.0));
        var inRange = from < to ? expected.subMap(from, to) : Map.of();
        assertThat(inPieces(joined, from, to, most)).isEqualTo(inRange);
    }

    @Property(seed = "20260314", tries = 500)
    void lastIsTheNewestOfBoth(
            @ForAll @Size(max = 5) Set<@LongRange(min = 0, max = 30) Long> old,
            @ForAll @Size(max = 5) Set<@LongRange(min = 0, max = 60) Long> young) {
        // As in the program: the older stretch knows nothing from after the border that the newer one does not know.
        var joined = new JoinedStretch(new Shelf(old, 1), new Shelf(young, 2), () -> 31);

        var times = new TreeMap<Long, Double>();
        old.forEach(time -> times.put(time, 1.0));
        young.forEach(time -> times.put(time, 2.0));
        assertThat(joined.last("a").map(RawReading::timeMs))
                .isEqualTo(times.isEmpty() ? Optional.empty() : Optional.of(times.lastKey()));
    }

    private static Map<Long, Double> inPieces(Stretch stretch, long from, long to, int most) {
        var found = new ArrayList<RawReading>();
        var next = from;
        List<RawReading> piece;
        do {
            piece = stretch.next("a", next, to, most);
            found.addAll(piece);
            next = piece.isEmpty() ? to : piece.get(piece.size() - 1).timeMs() + 1;
        } while (piece.size() >= most);
        assertThat(found).extracting(RawReading::timeMs).isSorted().doesNotHaveDuplicates();
        var byTime = new TreeMap<Long, Double>();
        found.forEach(reading -> byTime.put(reading.timeMs(), reading.raw()));
        return byTime;
    }

    /** Times on a shelf, all with the same value. */
    private record Shelf(Set<Long> times, double value) implements Stretch {
        @Override
        public List<RawReading> next(String probe, long fromMs, long toMs, int most) {
            return times.stream()
                    .filter(time -> time >= fromMs && time < toMs)
                    .sorted()
                    .limit(most)
                    .map(time -> new RawReading(probe, time, value, 0))
                    .toList();
        }

        @Override
        public Optional<RawReading> last(String probe) {
            return times.stream().max(Long::compare).map(time -> new RawReading(probe, time, value, 0));
        }

        @Override
        public List<Extent> extents() {
            throw new UnsupportedOperationException();
        }
    }
}
