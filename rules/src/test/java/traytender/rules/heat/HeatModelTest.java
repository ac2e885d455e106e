package traytender.rules.heat;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** A made-up tray over a mat whose numbers are known. */
class HeatModelTest {
    private static final double TAU = 1.7;
    private static final double GAIN = 16;
    private static final double REST = -0.8;

    private final Random random = new Random(3);
    private double root = 17;
    private long minute;
    private final HeatModel model = new HeatModel();

    /** Runs the tray with a thermostat at 25 C, or the mat as told. */
    private void run(int minutes, double truly, double said) {
        for (int i = 0; i < minutes; i++) {
            double air = 18 + 2 * Math.sin(minute / 1440.0 * 2 * Math.PI);
            double heat = Double.isNaN(truly) ? thermostat() : truly;
            root += ((air + REST - root) / TAU + GAIN / TAU * heat) / 60;
            double reading = Math.round((root + 0.08 * random.nextGaussian()) * 10) / 10.0;
            model.accept(minute * 60_000L, reading, air, Double.isNaN(truly) ? heat : said);
            minute++;
        }
    }

    private boolean heating;

    private double thermostat() {
        if (root < 24) {
            heating = true;
        } else if (root > 26) {
            heating = false;
        }
        return heating ? 1 : 0;
    }

    @Test
    void numbers_areLearntAsItRuns() {
        run(3 * 1440, Double.NaN, Double.NaN);

        assertThat(model.timeConstantHours()).isCloseTo(TAU, within(0.4));
        assertThat(model.steady(18, 1)).isCloseTo(18 + REST + GAIN, within(2.0));
        assertThat(model.steady(18, 0)).isCloseTo(18 + REST, within(1.2));
    }

    @Test
    void brokenMat_isSeenWithinThreeQuartersOfAnHour_andIsNotLearnt() {
        run(2 * 1440, Double.NaN, Double.NaN);
        double gain = model.gain();
        assertThat(MatEvidence.isNotHeating(model, 600)).isFalse();
        run(60, 0, 1);

        assertThat(MatEvidence.isNotHeating(model, 60)).isTrue();
        run(600, 0, 1);
        assertThat(model.gain()).isCloseTo(gain, within(1.5));
    }

    @Test
    void matThatWillNotStop_isSeen() {
        run(2 * 1440, Double.NaN, Double.NaN);
        assertThat(MatEvidence.isNotStopping(model, 18, 600, true)).isFalse();
        run(75, 1, 0);

        assertThat(MatEvidence.isNotStopping(model, 18, 75, true)).isTrue();
    }

    @Test
    void withoutAPowerProbe_heatIsInferred() {
        run(1440, Double.NaN, Double.NaN);
        run(90, 0, Double.NaN);
        assertThat(MatEvidence.heats(model, 18)).isFalse();
        run(90, 1, Double.NaN);

        assertThat(MatEvidence.heats(model, 18)).isTrue();
    }

    @Test
    void timeToALimit_isWhereTheWayAheadMeetsIt() {
        run(2 * 1440, Double.NaN, Double.NaN);
        double hours = model.hoursTo(28, 24, 18, 1);

        assertThat(model.ahead(24, 18, 1, hours)).isCloseTo(28, within(1e-9));
        assertThat(model.hoursTo(60, 24, 18, 1)).isInfinite();
        assertThat(model.hoursTo(20, 24, 18, 1)).isZero();
    }

    @Test
    void probeInTheAir_fallsFasterThanMediumCan() {
        run(2 * 1440, Double.NaN, Double.NaN);

        assertThat(MatEvidence.isInAir(model, 18.3, 18, 7, 0.25)).isTrue();
        assertThat(MatEvidence.isInAir(model, 18.3, 18, 7, 8)).isFalse();
    }

    @Test
    void copy_goesOnByItself() {
        run(300, Double.NaN, Double.NaN);
        var copy = model.copy();
        double before = model.inferredHeat();
        copy.accept((minute + 30) * 60_000L, 40, 18, 1);
        copy.accept((minute + 60) * 60_000L, 40, 18, 1);

        assertThat(model.inferredHeat()).isEqualTo(before);
    }
}
