package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Site;

/** What every store of readings must do. A subclass only says how to open an empty one whose values are twice the raw ones. */
abstract class ReadingStoreContract {
    static final long NOON = Instant.parse("2026-03-14T12:00:00Z").toEpochMilli();
    private static final Site SITE = Bench.site("a", "b", "c");

    ReadingStore store;

    /** An empty store that answers with {@link Bench#DOUBLED}. */
    abstract ReadingStore openEmpty();

    @BeforeEach
    void open() {
        store = openEmpty();
    }

    @AfterEach
    void close() {
        store.close();
    }

    @Test
    void append_saysWhatWasStoredAndWhatRepeated() {
        var first = store.append(List.of(raw("a", 0, 1), raw("b", 0, 2)));
        var second = store.append(List.of(raw("a", 0, 1), raw("a", 60, 3)));

        assertThat(first).isEqualTo(new AppendResult(List.of(raw("a", 0, 1), raw("b", 0, 2)), 0));
        assertThat(second).isEqualTo(new AppendResult(List.of(raw("a", 60, 3)), 1));
        assertThat(store.count()).isEqualTo(3);
    }

    @Test
    void append_repeatWithinOneGroup_countsOnce() {
        var result = store.append(List.of(raw("a", 0, 1), raw("a", 0, 1), raw("a", 0, 9)));

        assertThat(result.stored()).isEqualTo(1);
        assertThat(result.repeated()).isEqualTo(2);
    }

    @Test
    void append_sameProbeAndTimeWithAnotherValue_changesNothing() {
        store.append(List.of(raw("a", 0, 1)));
        store.append(List.of(raw("a", 0, 99)));

        assertThat(scan()).containsExactly(reading("a", 0, 1));
    }

    @Test
    void append_nothing_isNothing() {
        assertThat(store.append(List.of())).isEqualTo(new AppendResult(List.of(), 0));
    }

    @Test
    void scan_givesOrderOfTimeThenProbe_howeverTheyCame() {
        store.append(List.of(raw("c", 0, 1), raw("b", 60, 2)));
        store.append(List.of(raw("a", 60, 3), raw("a", -60, 4), raw("b", 0, 5)));

        assertThat(scan())
                .containsExactly(
                        reading("a", -60, 4),
                        reading("b", 0, 5),
                        reading("c", 0, 1),
                        reading("a", 60, 3),
                        reading("b", 60, 2));
    }

    @Test
    void scan_ofThousandsOfShuffledReadings_givesEachOnceInOrder() {
        var random = new Random(7);
        var all = new ArrayList<RawReading>();
        for (var probe : List.of("a", "b", "c")) {
            IntStream.range(0, 2_000).forEach(i -> all.add(raw(probe, i * 7L + random.nextInt(7), i)));
        }
        Collections.shuffle(all, random);
        for (int i = 0; i < all.size(); i += 500) {
            store.append(all.subList(i, i + 500));
        }

        var expected = all.stream()
                .sorted(Comparator.comparingLong(RawReading::timeMs).thenComparing(RawReading::probe))
                .map(raw -> Bench.DOUBLED.of(SITE.probe(raw.probe()).orElseThrow(), raw))
                .toList();
        assertThat(scan()).isEqualTo(expected);
    }

    @Test
    void scan_takesFromInclusiveToExclusive() {
        store.append(LongStream.range(0, 4).mapToObj(i -> raw("a", i, i)).toList());

        var found = new ArrayList<Reading>();
        store.source(SITE).scan(NOON + 1000, NOON + 3000, found::add);

        assertThat(found).containsExactly(reading("a", 1, 1), reading("a", 2, 2));
    }

    @Test
    void scan_leavesOutProbesThatTheSiteDoesNotName() {
        store.append(List.of(raw("gone", 0, 1), raw("a", 0, 2)));

        assertThat(scan()).containsExactly(reading("a", 0, 2));
    }

    @Test
    void scan_whoseConsumerAsksTheStore_isAnswered() {
        store.append(List.of(raw("a", 0, 1), raw("a", 60, 2)));
        var counts = new ArrayList<Long>();

        store.source(SITE).scan(Long.MIN_VALUE, Long.MAX_VALUE, reading -> {
            store.append(List.of(raw("b", reading.timeMs() / 1000, 5)));
            counts.add(store.count());
        });

        assertThat(counts).startsWith(3L, 4L);
    }

    @Test
    void readings_ofOneProbe_takesFromInclusiveToExclusive() {
        store.append(List.of(raw("a", 0, 1), raw("a", 60, 2), raw("a", 120, 3), raw("b", 60, 4)));

        assertThat(store.readings(Bench.probe("a"), at(0), at(120)))
                .containsExactly(reading("a", 0, 1), reading("a", 60, 2));
        assertThat(store.readings(Bench.probe("a"), at(0).plusNanos(1), at(120).plusNanos(1)))
                .containsExactly(reading("a", 60, 2), reading("a", 120, 3));
    }

    @Test
    void readings_ofAllTime_areAll() {
        store.append(List.of(raw("a", 0, 1), raw("a", 60, 2)));

        assertThat(store.readings(Bench.probe("a"), Instant.MIN, Instant.MAX)).hasSize(2);
    }

    @Test
    void readings_ofAProbeNeverHeard_areNone() {
        assertThat(store.readings(Bench.probe("silent"), at(0), at(60))).isEmpty();
        assertThat(store.latest(Bench.probe("silent"))).isEmpty();
    }

    @Test
    void latest_isTheNewestByItsOwnTime_notByArrival() {
        store.append(List.of(raw("a", 60, 2)));
        store.append(List.of(raw("a", 0, 1)));

        assertThat(store.latest(Bench.probe("a"))).contains(reading("a", 60, 2));
    }

    @Test
    void newestTime_isOverAllProbes() {
        assertThat(store.newestTime()).isEmpty();
        store.append(List.of(raw("a", 60, 2), raw("gone", 61, 2), raw("b", 0, 1)));

        assertThat(store.newestTime()).contains(at(61));
    }

    @Test
    void extents_areFirstAndLastOfEveryProbe() {
        store.append(List.of(raw("b", 60, 2), raw("a", 5, 2), raw("b", 0, 1), raw("b", 30, 1)));

        assertThat(store.extents()).containsExactly(new Extent("a", at(5), at(5)), new Extent("b", at(0), at(60)));
    }

    @Test
    void marksAndOddNumbers_comeBackAsTheyWere() {
        var raws = List.of(
                new RawReading("a", NOON, -0.0, Marks.CLOCK),
                new RawReading("a", NOON + 1, Double.MIN_VALUE, Marks.NONE),
                new RawReading("a", NOON + 2, -1e300, Marks.CLOCK),
                new RawReading("a", NOON + 3, 0.1 + 0.2, Marks.NONE));
        store.append(raws);

        assertThat(scan())
                .extracting(
                        reading -> new RawReading(reading.probe(), reading.timeMs(), reading.raw(), reading.marks()))
                .isEqualTo(raws);
    }

    @Test
    void probeIdsWithOddCharacters_areKeptApart() {
        var ids = List.of("a'b", "a\"b", "a;b", "ä", "a", "A", " a", "a\n", "%", "🌱");
        store.append(ids.stream().map(id -> raw(id, 0, ids.indexOf(id))).toList());

        for (var id : ids) {
            assertThat(store.latest(Bench.probe(id))).contains(reading(id, 0, ids.indexOf(id)));
        }
    }

    @Test
    void removeBefore_removesTheOlderOnly() {
        store.append(LongStream.range(0, 25_000).mapToObj(i -> raw("a", i, i)).toList());
        store.append(List.of(raw("b", 0, 1), raw("c", 30_000, 1)));

        assertThat(store.removeBefore(at(24_999))).isEqualTo(25_000);
        assertThat(scan()).containsExactly(reading("a", 24_999, 24_999), reading("c", 30_000, 1));
        assertThat(store.extents()).extracting(Extent::probe).containsExactly("a", "c");
        assertThat(store.removeBefore(at(24_999))).isZero();
    }

    @Test
    void manyThreadsAppending_loseNothing() {
        var results = IntStream.range(0, 8)
                .parallel()
                .mapToObj(thread -> store.append(LongStream.range(0, 500)
                        .mapToObj(i -> raw("p" + thread % 4, i, thread))
                        .toList()))
                .toList();

        assertThat(results.stream().mapToInt(AppendResult::stored).sum()).isEqualTo(2_000);
        assertThat(results.stream().mapToInt(AppendResult::repeated).sum()).isEqualTo(2_000);
        assertThat(store.count()).isEqualTo(2_000);
    }

    @Test
    void rawReading_thatIsNotFinite_cannotBeMade() {
        assertThatThrownBy(() -> raw("a", 0, Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }

    List<Reading> scan() {
        var found = new ArrayList<Reading>();
        store.source(SITE).scan(Long.MIN_VALUE, Long.MAX_VALUE, found::add);
        return found;
    }

    static Instant at(long seconds) {
        return Instant.ofEpochMilli(NOON).plusSeconds(seconds);
    }

    static RawReading raw(String probe, long seconds, double value) {
        return new RawReading(probe, NOON + seconds * 1000, value, 0);
    }

    static Reading reading(String probe, long seconds, double raw) {
        return new Reading(probe, NOON + seconds * 1000, 2 * raw, raw, 0);
    }
}
