package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Made-up probes with known gain and offset; arithmetic. */
class FullReadingTest {
    private static final double USUAL = FullReading.spread(List.of());

    @Test
    void nothingSeen_isTheCalibration() {
        var full = new FullReading();

        assertThat(full.at(0.45, USUAL)).isEqualTo(0.45);
        assertThat(full.error(0.45, USUAL)).isBetween(0.005, 0.015);
    }

    @Test
    void halfFilledCell_saysNothing() {
        var full = new FullReading();
        full.settled(0.8);

        assertThat(full.count()).isZero();
        assertThat(full.at(0.45, full.ownSpread())).isEqualTo(0.45);
    }

    /**
     * What six probes of one tray show at full tells how good they are, of a good lot and of a bad one; it takes doubt from a
     * reading at the dry line, and what doubt is left is the right one.
     */
    @Test
    void filledCells_makeTheDryLineSurer_byAsMuchAsTheySay() {
        for (double lot : new double[] {0.008, 0.025}) {
            double before = 0;
            double after = 0;
            double told = 0;
            int tries = 4000;
            var random = new Random(5);
            for (int i = 0; i < tries; i++) {
                var truths = new double[6];
                var probes = new ArrayList<FullReading>();
                for (int probe = 0; probe < truths.length; probe++) {
                    double gain = 1 + Math.sqrt(0.8) * lot * random.nextGaussian();
                    double offset = Math.sqrt(0.2) * lot * random.nextGaussian();
                    var full = new FullReading();
                    for (int k = 0; k < 2; k++) {
                        full.settled(gain + offset + 0.005 * random.nextGaussian());
                    }
                    truths[probe] = gain * 0.45 + offset + Math.sqrt(0.15) * lot * random.nextGaussian();
                    probes.add(full);
                }
                double spread = FullReading.spread(probes);
                for (int probe = 0; probe < truths.length; probe++) {
                    FullReading full = probes.get(probe);
                    before += Math.pow(truths[probe] - 0.45, 2) / tries;
                    after += Math.pow(truths[probe] - full.at(0.45, spread), 2) / tries;
                    told += Math.pow(full.error(0.45, spread), 2) / tries;
                }
            }

            assertThat(Math.sqrt(after)).isLessThan(0.75 * Math.sqrt(before));
            assertThat(Math.sqrt(told)).isCloseTo(Math.sqrt(after), within(0.3 * Math.sqrt(after)));
        }
    }
}
