package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import java.util.function.LongToDoubleFunction;
import java.util.stream.LongStream;
import java.util.zip.DataFormatException;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;

/** What is sealed comes back to the last bit, or says that it is damaged. */
class SealedRunTest {
    @Property(seed = "20260314", tries = 2_000)
    void whatIsSealed_comesBackToTheBit(@ForAll("runs") List<RawReading> readings) throws DataFormatException {
        var back = SealedRun.readings("a", readings.size(), SealedRun.content(readings));

        assertThat(back).isEqualTo(readings);
        // As bits: for a record two zeros are alike, and so must be the smallest numbers.
        assertThat(back)
                .extracting(reading -> Double.doubleToRawLongBits(reading.raw()))
                .isEqualTo(readings.stream()
                        .map(reading -> Double.doubleToRawLongBits(reading.raw()))
                        .toList());
    }

    @Provide
    Arbitrary<List<RawReading>> runs() {
        var value = Arbitraries.oneOf(
                Arbitraries.integers().between(0, 4_095).map(Integer::doubleValue),
                Arbitraries.integers().between(-5_000, 5_000).map(tenths -> tenths / 10.0),
                Arbitraries.longs().map(Double::longBitsToDouble).filter(Double::isFinite));
        var reading = Combinators.combine(Arbitraries.longs(), value, Arbitraries.integers())
                .as((time, raw, marks) -> new RawReading("a", time, raw, marks));
        return reading.list().ofMinSize(1).ofMaxSize(60).map(SealedRunTest::inOrder);
    }

    private static List<RawReading> inOrder(List<RawReading> readings) {
        var byTime = new TreeMap<Long, RawReading>();
        readings.forEach(reading -> byTime.put(reading.timeMs(), reading));
        return new ArrayList<>(byTime.values());
    }

    /** A few bits of a zlib stream mean nothing, such as those that fill up the last byte before the checksum. */
    @Test
    void aBitChanged_isNoticed_orMeansNothing() throws DataFormatException {
        var readings = day(i -> 1_600 + i * i % 7);
        var content = SealedRun.content(readings);
        int noticed = 0;
        for (int bit = 0; bit < 8 * content.length; bit++) {
            var spoilt = content.clone();
            spoilt[bit / 8] ^= (byte) (1 << bit % 8);
            try {
                assertThat(SealedRun.readings("a", 1_440, spoilt)).isEqualTo(readings);
            } catch (DataFormatException e) {
                noticed++;
            }
        }
        assertThat(noticed).isGreaterThan(8 * content.length - 8);
    }

    @Test
    void sixteenthsTenthsAndCounts_takeLittle() {
        assertThat(SealedRun.content(day(i -> 1_600 + i % 7)).length).isLessThan(1_440);
        assertThat(SealedRun.content(day(i -> 20 + i % 5 / 16.0)).length).isLessThan(1_440);
        assertThat(SealedRun.content(day(i -> 20 + i % 5 / 10.0)).length).isLessThan(1_440);
    }

    private static List<RawReading> day(LongToDoubleFunction value) {
        return LongStream.range(0, 1_440)
                .mapToObj(i -> new RawReading("a", 60_000 * i, value.applyAsDouble(i), 0))
                .toList();
    }
}
