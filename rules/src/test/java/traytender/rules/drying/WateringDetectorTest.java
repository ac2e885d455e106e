package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import traytender.rules.drying.WateringDetector.Step;

/** Made-up probes; common practice, no source. */
class WateringDetectorTest {
    private final ProbeDrying drying = new ProbeDrying();
    private final List<Step> steps = new ArrayList<>();
    private final MadeUpProbe probe = new MadeUpProbe(11, 0.70, 0.015, 0.003, 0, 0.006);

    private void run(int count, double added) {
        for (int i = 0; i < count; i++) {
            probe.dry();
            steps.add(drying.accept(
                    probe.timeMs, probe.read() + added, probe.temperature(), probe.light(), AirPull.USUAL));
        }
    }

    @Test
    void watering_isFoundOnce_withItsStartAndRise() {
        run(100, 0);
        long before = probe.timeMs;
        double level = probe.truth;
        probe.truth = 1.0;
        run(40, 0);

        var watering = Objects.requireNonNull(drying.lastWatering());
        assertThat(steps).containsOnlyOnce(Step.SETTLED);
        assertThat(watering.startMs()).isBetween(before, before + 600_000);
        assertThat(watering.rise()).isCloseTo(1.0 - level, within(0.03));
        assertThat(drying.fit().sinceMs()).isEqualTo(watering.settledMs());
    }

    @Test
    void creepingWatering_fromBelow_isFoundToo() {
        run(100, 0);
        for (int i = 0; i < 12; i++) {
            probe.truth += 0.025;
            run(1, 0);
        }
        run(30, 0);

        assertThat(steps).containsOnlyOnce(Step.SETTLED);
        assertThat(Objects.requireNonNull(drying.lastWatering()).rise()).isGreaterThan(0.2);
    }

    @Test
    void liftedAndPutBack_isNoWatering() {
        run(100, 0);
        run(30, -0.6);
        run(60, 0);

        assertThat(steps).contains(Step.FELL, Step.PUT_BACK).doesNotContain(Step.RISING, Step.SETTLED);
        assertThat(drying.lastWatering()).isNull();
    }

    @Property(tries = 40, seed = "20260314")
    void noiseSpikesAndTemperature_areNoWatering(@ForAll @IntRange(max = 10_000) int seed) {
        var swinging = new MadeUpProbe(seed, 0.75, 0.0005, 0.0005, -0.0044, 0.008);
        var random = new java.util.Random(seed);
        var own = new ProbeDrying();
        for (int i = 0; i < 2 * 288; i++) {
            swinging.dry();
            double value = random.nextInt(100) == 0 ? 1.1 : swinging.read();
            own.accept(swinging.timeMs, value, Double.NaN, swinging.light(), AirPull.USUAL);
        }

        assertThat(own.lastWatering()).isNull();
    }
}
