package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Made-up probes with known gain and offset; arithmetic. */
class FullReadingTest {
    @Test
    void nothingSeen_isTheCalibration() {
        var full = new FullReading();

        assertThat(full.at(0.45)).isEqualTo(0.45);
        assertThat(full.error(0.45)).isBetween(0.005, 0.01);
    }

    @Test
    void halfFilledCell_saysNothing() {
        var full = new FullReading();
        full.settled(0.8);

        assertThat(full.count()).isZero();
        assertThat(full.at(0.45)).isEqualTo(0.45);
    }

    /** What is learnt at full takes doubt from a reading at the dry line, and what doubt is left is the right one. */
    @Test
    void filledCells_makeTheDryLineSurer_byAsMuchAsTheySay() {
        double before = 0;
        double after = 0;
        double told = 0;
        int tries = 4000;
        var random = new Random(5);
        for (int i = 0; i < tries; i++) {
            double gain = 1 + 0.012 * random.nextGaussian();
            double offset = 0.006 * random.nextGaussian();
            var full = new FullReading();
            for (int k = 0; k < 2; k++) {
                full.settled(gain + offset + 0.008 * random.nextGaussian());
            }
            double truth = gain * 0.45 + offset;
            before += Math.pow(truth - 0.45, 2) / tries;
            after += Math.pow(truth - full.at(0.45), 2) / tries;
            told += Math.pow(full.error(0.45), 2) / tries;
        }

        assertThat(Math.sqrt(after)).isLessThan(0.7 * Math.sqrt(before));
        assertThat(Math.sqrt(told)).isCloseTo(Math.sqrt(after), within(0.1 * Math.sqrt(after)));
    }
}
