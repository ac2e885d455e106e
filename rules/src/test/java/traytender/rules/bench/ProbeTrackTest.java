package traytender.rules.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Reading;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;

class ProbeTrackTest {
    private static final long START = Instant.parse("2026-03-10T06:00:00Z").toEpochMilli();

    /** Hours, of so many days, for which the probe was held to be stuck. */
    private static double hoursStuck(
            Quantity measures, double step, double noise, int days, DoubleUnaryOperator truth) {
        var track = new ProbeTrack(new Probe(
                "P",
                measures,
                Dated.always(new Place.InCell("T01", new Cell(1, 1))),
                new Binding.Text("t", Map.of()),
                Dated.always(new Calibration.None()),
                Duration.ofMinutes(5)));
        var chance = new SplittableRandom(20260314);
        int stuck = 0;
        for (int i = 0; i < days * 288; i++) {
            double value = truth.applyAsDouble(i / 12.0) + noise * chance.nextGaussian();
            double raw = step * Math.rint(value / step);
            track.take(new Reading("P", START + i * 300_000L, raw, raw, 0), 5L * i);
            stuck += track.isStuck() ? 1 : 0;
        }
        return stuck / 12.0;
    }

    /** Steps of a point with half a point of noise: in the middle of a step two of three readings are the same as the one before. */
    @Test
    void coarseProbeInSlowlyDryingMedium_isNotStuck() {
        assertThat(hoursStuck(Quantity.MOISTURE, 0.01, 0.005, 20, hour -> 0.9 - 0.0006 * hour))
                .isZero();
    }

    /** Livelier in the afternoons, when it dries fast, than in the still nights in which it may repeat itself by chance. */
    @Test
    void coarseNoisyProbe_isNotStuckByChance() {
        DoubleUnaryOperator day = hour -> 0.9 - 0.4 * Math.max(0, Math.sin(hour * Math.PI / 12));

        assertThat(hoursStuck(Quantity.MOISTURE, 0.01, 0.006, 600, day)).isZero();
    }

    @Test
    void coarseThermometerInAStillRoom_isNotStuck() {
        DoubleUnaryOperator day = hour -> 19 + 1.2 * Math.sin(hour * Math.PI / 12);

        assertThat(hoursStuck(Quantity.TEMPERATURE, 0.25, 0.05, 20, day)).isZero();
        assertThat(hoursStuck(Quantity.TEMPERATURE, 0.1, 0.05, 20, day)).isZero();
    }

    @Test
    void fineProbeThatStops_isStuckWithinTwoHours_andACoarseOneWithinTwelve() {
        assertThat(frozenFor(0.0007)).isBetween(22.0, 22.7);
        assertThat(frozenFor(0.01)).isGreaterThan(12);
    }

    /** Hours called stuck of the 24 for which a probe repeats itself. */
    private static double frozenFor(double step) {
        var chance = new SplittableRandom(4);
        double[] last = {0};
        return hoursStuck(Quantity.MOISTURE, step, 0, 2, hour -> {
            if (hour < 24) {
                last[0] = 0.9 - 0.01 * hour + 0.005 * chance.nextGaussian();
            }
            return last[0];
        });
    }
}
