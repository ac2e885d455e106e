package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.ZoneOffset;
import org.apache.commons.math3.stat.descriptive.rank.Median;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import traytender.config.site.Location;

/** Made-up probes whose rates are known, and commons-math3's least squares beside. */
class DryingFitTest {
    /**
     * A prior that knows next to nothing of the rate and takes it for constant: then the filter must be least squares, but for
     * the readings beyond 2.5 standard deviations that it trusts less. There are none here: noise is even, not normal.
     */
    private static final DryingPrior NOTHING =
            new DryingPrior(0.01, 100, 0, 0, 1e-9, 0, 0, 1e-9, 0.3, 1e-9, 0, 1e-9, 0, 0, 0, 0, 0);

    @Test
    void rate_underConstantLight_isThatOfLeastSquares() {
        var random = new java.util.Random(7);
        var fit = new DryingFit(NOTHING);
        var line = new SimpleRegression();
        for (int i = 0; i < 300; i++) {
            double hours = i / 12.0;
            double value = 0.95 - 0.012 * hours + 0.006 * Math.sqrt(3) * (2 * random.nextDouble() - 1);
            fit.accept(Math.round(hours * 3_600_000), value, 0.006, Double.NaN, LightPlan.ALWAYS, AirPull.USUAL);
            line.addData(hours, value);
        }

        // Least squares of the readings gives the standard error from their own scatter, the filter from the noise it
        // is told.
        double told = line.getSlopeStdErr() * 0.006 / Math.sqrt(line.getMeanSquareError());
        assertThat(fit.lightRate()).isCloseTo(-line.getSlope(), within(0.01 * told));
        assertThat(fit.lightRateError()).isCloseTo(told, within(0.01 * told));
        assertThat(fit.level()).isCloseTo(line.predict(299 / 12.0), within(0.00001));
    }

    @Test
    void rates_ofLightAndDark_areToldApart() {
        double[] light = new double[60];
        double[] dark = new double[60];
        for (int seed = 0; seed < 60; seed++) {
            var fit = run(new MadeUpProbe(seed, 0.98, 0.018, 0.003, 0, 0.006), 2 * 288, false);
            light[seed] = Math.abs(fit.lightRate() - 0.018);
            dark[seed] = Math.abs(fit.darkRate() - 0.003);

            assertThat(light[seed]).isLessThan(3 * fit.lightRateError());
            assertThat(dark[seed]).isLessThan(3 * fit.darkRateError());
        }

        assertThat(new Median().evaluate(light)).isLessThan(0.05 * 0.018);
        assertThat(new Median().evaluate(dark)).isLessThan(0.1 * 0.003);
    }

    @Test
    void temperaturePart_isLearnt_andLeavesTheDryingAlone() {
        var fit = run(new MadeUpProbe(5, 0.95, 0.004, 0.003, -0.0044, 0.006), 3 * 288, true);

        assertThat(fit.perKelvin()).isCloseTo(-0.0044, within(0.0006));
        assertThat(fit.lightRate()).isCloseTo(0.004, within(0.0008));
    }

    @Test
    void temperaturePart_withoutATemperatureProbe_keepsItsWholeDoubt() {
        var fit = run(new MadeUpProbe(5, 0.95, 0.004, 0.003, 0, 0.006), 288, false);

        assertThat(fit.perKelvinError()).isCloseTo(DryingPrior.USUAL.perKelvinDoubt(), within(1e-6));
    }

    @Test
    void gap_isDriedThroughLightAndDark() {
        var probe = new MadeUpProbe(3, 0.98, 0.018, 0.003, 0, 0.003);
        var fit = run(probe, 288, false);
        for (int i = 0; i < 200; i++) {
            probe.dry();
        }
        fit.advance(probe.timeMs, probe.light(), AirPull.USUAL);

        assertThat(fit.level()).isCloseTo(probe.truth, within(3 * fit.spread()));
    }

    @Test
    void place_thatDoesNotDry_isNotExpectedToDryInTheSunToCome() {
        var room = new DailyLight(DailyLight.USUAL, ZoneOffset.UTC, new Location(48.1, 15.6));
        for (int seed = 0; seed < 40; seed++) {
            var probe = new MadeUpProbe(seed, 0.5, 0.0004, 0.0004, 0.001, 0.006);
            var fit = new DryingFit(DryingPrior.USUAL);
            for (int i = 0; i < 3 * 288; i++) {
                probe.dry();
                fit.accept(probe.timeMs, probe.read(), 0.006, probe.temperature(), room, AirPull.USUAL);
            }

            assertThat(fit.dayRate(room, AirPull.USUAL)).isCloseTo(0.0004, within(0.0003));
        }
    }

    private static DryingFit run(MadeUpProbe probe, int steps, boolean temperature) {
        var fit = new DryingFit(DryingPrior.USUAL);
        for (int i = 0; i < steps; i++) {
            probe.dry();
            fit.accept(
                    probe.timeMs,
                    probe.read(),
                    0.006,
                    temperature ? probe.temperature() : Double.NaN,
                    probe.light(),
                    AirPull.USUAL);
        }
        return fit;
    }
}
