package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** Made-up probes; arithmetic where the rate is known. */
class DryingForecastTest {
    /**
     * Spread of gain and of offset of cheap capacitive probes after a two-point calibration: within 3 points in 95 of 100 (common practice,
     * no source), in equal parts, whatever {@link FullReading} takes for granted.
     */
    private static final double PROBE_PART = 0.03 / 2 / Math.sqrt(2);

    private static final DryingPrior SURE =
            new DryingPrior(0.02, 1e-6, 0, 0, 1e-9, 0, 0, 1e-9, 0.3, 1e-9, 0, 1e-9, 0, 0, 0, 0, 0);

    @Test
    void crossing_atKnownRates_isArithmetic() {
        var fit = new DryingFit(SURE);
        fit.restart(0, 0.80, 1e-6);

        var forecast =
                Objects.requireNonNull(DryingForecast.of(fit, LightPlan.ALWAYS, AirPull.USUAL, 0.55, 0, 1e-6, 1));

        assertThat(forecast.expectedMs() / 3_600_000.0).isCloseTo(12.5, within(0.01));
        assertThat(forecast.earliestMs() / 3_600_000.0).isCloseTo(12.5, within(0.02));
    }

    @Test
    void crossing_beyondReach_isNotForeseen() {
        var fit = new DryingFit(SURE);
        fit.restart(0, 0.98, 0.01);

        assertThat(DryingForecast.of(fit, LightPlan.ALWAYS, AirPull.USUAL, 0.01, 0, 0.01, 1))
                .isNull();
        assertThat(new ProbeDrying().forecast(0.5, 0, LightPlan.ALWAYS, AirPull.USUAL))
                .isNull();
    }

    @Property(tries = 60, seed = "20260314")
    void lowerLine_isReachedLater_andTheIntervalHoldsTheExpected(
            @ForAll @IntRange(max = 1000) int seed, @ForAll @DoubleRange(min = 0.01, max = 0.2) double lower) {
        var probe = new MadeUpProbe(seed, 0.95, 0.016, 0.003, 0.001, 0.006);
        var drying = run(probe, 120);
        var high = drying.forecast(0.65, probe.timeMs, probe.light(), AirPull.USUAL);
        var low = drying.forecast(0.65 - lower, probe.timeMs, probe.light(), AirPull.USUAL);

        if (high != null && low != null) {
            assertThat(low.expectedMs()).isGreaterThanOrEqualTo(high.expectedMs());
            assertThat(low.earliestMs()).isGreaterThanOrEqualTo(high.earliestMs());
        }
        for (var one :
                java.util.stream.Stream.of(high, low).filter(Objects::nonNull).toList()) {
            assertThat(one.earliestMs()).isBetween(probe.timeMs, one.expectedMs());
            assertThat(one.latestMs()).isGreaterThanOrEqualTo(one.expectedMs());
        }
    }

    @Test
    void placeWithinItsProbesError_isAsGoodAsThere() {
        var probe = new MadeUpProbe(7, 0.6, 0.016, 0.003, 0, 0.004);
        var drying = run(probe, 36);
        double level = drying.fit().level();
        double spread = drying.full().ownSpread();

        assertThat(drying.isAsGoodAs(level - 0.005, spread)).isTrue();
        assertThat(drying.isAsGoodAs(level - 0.05, spread)).isFalse();
    }

    /** Rates, growth, weather and probes' errors made up by seed, unlike the prior's; the prior is not told. */
    @Test
    void forecasts_ofManyProbes_areNear_andTheIntervalHoldsTheTruth() {
        List<Double> errors = new ArrayList<>();
        int held = 0;
        for (int seed = 0; seed < 150; seed++) {
            var random = new Random(seed);
            double lightRate = 0.008 + 0.016 * random.nextDouble();
            double darkRate = lightRate * (0.12 + 0.4 * random.nextDouble());
            double line = 0.45 + 0.15 * random.nextDouble();
            var probe = new MadeUpProbe(seed, 0.98, lightRate, darkRate, 0.001 * random.nextGaussian(), 0.006);
            probe.growthPerDay = 0.15 * random.nextDouble();
            probe.weather = 0.12;
            probe.gain = 1 + PROBE_PART * random.nextGaussian();
            probe.offset = PROBE_PART * random.nextGaussian();
            probe.knee = 0.35 + 0.2 * random.nextDouble();
            var drying = run(probe, (int) (12 * (20 + 10 * random.nextDouble())));
            var forecast = drying.forecast(line, probe.timeMs, probe.light(), AirPull.USUAL);
            if (probe.truth <= line + 0.01 || forecast == null) {
                continue;
            }
            while (probe.truth > line) {
                probe.dry();
            }
            errors.add(Math.abs(forecast.expectedMs() - probe.timeMs) / 60_000.0);
            held += forecast.earliestMs() <= probe.timeMs && probe.timeMs <= forecast.latestMs() ? 1 : 0;
        }
        errors.sort(null);
        double median = errors.get(errors.size() / 2);
        assertThat(errors).hasSizeGreaterThan(80);
        assertThat(median).isLessThan(35);
        assertThat(held / (double) errors.size()).isBetween(0.7, 0.9);
    }

    private static ProbeDrying run(MadeUpProbe probe, int steps) {
        var drying = new ProbeDrying();
        for (int i = 0; i < steps; i++) {
            probe.dry();
            drying.accept(probe.timeMs, probe.read(), probe.temperature(), probe.light(), AirPull.USUAL);
        }
        return drying;
    }
}
