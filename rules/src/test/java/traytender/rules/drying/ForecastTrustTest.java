package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** A made-up probe that dries as the fit thinks, and one whose days are nothing alike. */
class ForecastTrustTest {
    private static double factor(double weather, int seed) {
        var probe = new MadeUpProbe(seed, 0.98, 0.016, 0.003, 0, 0.004);
        probe.weather = weather;
        var fit = new DryingFit(DryingPrior.USUAL);
        var trust = new ForecastTrust();
        for (int i = 0; i < 4 * 288; i++) {
            if (probe.truth < 0.6) {
                probe.truth = 0.98;
                fit.restart(probe.timeMs, 0.98, 0.005);
                trust.forget();
            }
            probe.dry();
            fit.accept(probe.timeMs, probe.read(), 0.004, Double.NaN, probe.light(), AirPull.USUAL);
            trust.look(fit, probe.light(), AirPull.USUAL);
        }
        return trust.factor();
    }

    @Test
    void forecastsThatComeTrue_narrowTheInterval_andThoseThatDoNotWidenIt() {
        for (int seed = 0; seed < 10; seed++) {
            assertThat(factor(0, seed)).isLessThan(0.9);
            assertThat(factor(0.8, seed)).isGreaterThan(1.5 * factor(0, seed));
        }
    }
}
