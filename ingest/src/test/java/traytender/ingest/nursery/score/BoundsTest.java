package traytender.ingest.nursery.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BoundsTest {
    /** R. G. Newcombe, Statistics in Medicine 17 (1998) 857-872, table I, method 3 (score); figures from memory. */
    @ParameterizedTest
    @CsvSource({"81, 263, 0.2553, 0.3662", "15, 148, 0.0624, 0.1605", "0, 20, 0.0000, 0.1611", "1, 29, 0.0061, 0.1718"})
    void proportion_hasWilsonsBounds(int hits, int tries, double low, double high) {
        Bounds bounds = Bounds.ofProportion(hits, tries);

        assertThat(bounds.low()).isCloseTo(low, within(0.00006));
        assertThat(bounds.high()).isCloseTo(high, within(0.00006));
    }

    /** Exact (Garwood 1936) as printed in common tables: 0: 0 to 3.689, 5: 1.623 to 11.668, 10: 4.795 to 18.390. */
    @Test
    void count_hasPoissonsBounds() {
        assertThat(Bounds.ofCount(0).low()).isZero();
        assertThat(Bounds.ofCount(0).high()).isCloseTo(3.689, within(0.1));
        assertThat(Bounds.ofCount(5).low()).isCloseTo(1.623, within(0.02));
        assertThat(Bounds.ofCount(5).high()).isCloseTo(11.668, within(0.02));
        assertThat(Bounds.ofCount(10).low()).isCloseTo(4.795, within(0.02));
        assertThat(Bounds.ofCount(10).high()).isCloseTo(18.390, within(0.02));
    }

    @Test
    void nothingTried_saysNothing() {
        assertThat(Bounds.ofProportion(0, 0)).isEqualTo(new Bounds(0, 1));
        assertThat(Bounds.ofMedian(List.of()).low()).isNaN();
    }

    @Test
    void median_liesInItsBounds_andOneValueIsItsOwn() {
        List<Double> values = List.of(3.0, 1.0, 4.0, 1.5, 9.0, 2.6, 5.0);
        double[] same = values.stream().mapToDouble(Double::doubleValue).toArray();

        Bounds bounds = Bounds.ofMedian(values);

        assertThat(Bounds.median(same)).isEqualTo(3.0).isBetween(bounds.low(), bounds.high());
        assertThat(Bounds.median(4, 2)).isEqualTo(3);
        assertThat(Bounds.ofMedian(List.of(7.0))).isEqualTo(new Bounds(7, 7));
    }
}
