package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import traytender.rules.drying.MoistureFilter.Fate;

/** The probes are made up, so their truth is known; no published source. */
class MoistureFilterTest {
    private static MadeUpProbe probe(long seed) {
        return new MadeUpProbe(seed, 0.9, 0.015, 0.003, 0, 0.006);
    }

    @Test
    void level_followsTheTruthWithinItsSpread() {
        var probe = probe(1);
        var filter = new MoistureFilter();
        double squares = 0;
        int count = 0;
        for (int i = 0; i < 288; i++) {
            probe.dry();
            filter.accept(probe.timeMs, probe.read());
            if (i >= 24) {
                double error = (filter.level() - probe.truth) / filter.spread();
                squares += error * error;
                count++;
            }
        }

        assertThat(filter.noise()).isCloseTo(0.006, within(0.0012));
        assertThat(Math.sqrt(squares / count)).isBetween(0.5, 1.5);
        assertThat(filter.spread()).isLessThan(filter.noise());
    }

    @Test
    void spike_movesNothing() {
        var with = new MoistureFilter();
        var without = new MoistureFilter();
        var probe = probe(2);
        for (int i = 0; i < 100; i++) {
            probe.dry();
            double value = probe.read();
            with.accept(probe.timeMs, i == 60 ? 0.2 : value);
            if (i != 60) {
                without.accept(probe.timeMs, value);
            }
        }

        assertThat(with.level()).isCloseTo(without.level(), within(0.002));
        assertThat(with.spikes()).isEqualTo(1);
    }

    @Test
    void change_isBelievedOnceThreeReadingsAgree() {
        var filter = new MoistureFilter();
        for (int i = 0; i < 20; i++) {
            filter.accept(i * 60_000L, 0.60);
        }

        assertThat(filter.accept(20 * 60_000L, 0.95)).isEqualTo(Fate.HELD);
        assertThat(filter.accept(21 * 60_000L, 0.96)).isEqualTo(Fate.HELD);
        assertThat(filter.level()).isCloseTo(0.60, within(0.001));
        assertThat(filter.accept(22 * 60_000L, 0.95)).isEqualTo(Fate.JUMPED_UP);
        assertThat(filter.level()).isEqualTo(0.95);
        assertThat(filter.levelBeforeJump()).isCloseTo(0.60, within(0.001));
        assertThat(filter.jumpMs()).isEqualTo(20 * 60_000L);
    }

    @Test
    void spikeAtTheVeryBeginning_isNoFall() {
        var filter = new MoistureFilter();
        filter.accept(0, 1.2);
        assertThat(filter.isBorne()).isFalse();
        filter.accept(300_000L, 0.75);
        filter.accept(600_000L, 0.76);

        assertThat(filter.accept(900_000L, 0.75)).isEqualTo(Fate.BEGUN_ANEW);
        assertThat(filter.level()).isEqualTo(0.75);
        assertThat(filter.isBorne()).isTrue();
        assertThat(filter.levelBeforeJump()).isNaN();
    }

    @Property(tries = 100, seed = "20260314")
    void repeatedAndOlderReadings_changeNothing(
            @ForAll @IntRange(max = 1000) int seed, @ForAll @IntRange(min = 1, max = 5) int often) {
        var once = new MoistureFilter();
        var often1 = new MoistureFilter();
        var probe = probe(seed);
        for (int i = 0; i < 80; i++) {
            probe.dry();
            double value = i == 50 ? 1.1 : probe.read();
            once.accept(probe.timeMs, value);
            for (int repeat = 0; repeat < often; repeat++) {
                often1.accept(probe.timeMs, value);
                often1.accept(probe.timeMs - 60_000, 0.1);
            }
        }

        assertThat(often1.level()).isEqualTo(once.level());
        assertThat(often1.spread()).isEqualTo(once.spread());
        assertThat(often1.noise()).isEqualTo(once.noise());
    }

    @Test
    void copy_goesOnAlike_andByItself() {
        var probe = probe(4);
        var filter = new MoistureFilter();
        for (int i = 0; i < 40; i++) {
            probe.dry();
            filter.accept(probe.timeMs, probe.read());
        }
        var copy = filter.copy();
        double before = filter.level();
        double value = probe.read();
        copy.accept(probe.timeMs + 1, value);

        assertThat(filter.level()).isEqualTo(before);
        filter.accept(probe.timeMs + 1, value);
        assertThat(copy.level()).isEqualTo(filter.level());
    }
}
