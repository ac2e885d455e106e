package traytender.rules.night;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Made-up nights of twelve hours, sunset at 18:00 and sunrise at 06:00 of each day. */
class NightAheadTest {
    private static final long HOUR_MS = 3_600_000;
    private final NightAhead ahead = new NightAhead();
    private long minute = 10 * 60;

    /** Runs to an hour of the first day, 24 and more being the days after it. */
    private void runTo(double hour, DoubleUnaryOperator airByHour) {
        for (; minute <= Math.round(hour * 60); minute++) {
            long day = Math.floorDiv(minute - 6 * 60, 1440L);
            long set = (day * 24 + 18) * HOUR_MS;
            double air = airByHour.applyAsDouble(minute / 60.0);
            ahead.minute(minute * 60_000L, air, Double.NaN, set, set + 12 * HOUR_MS);
        }
    }

    /** Falls from 10 C at 16:00 to 6 C at 18:00, and then with the square root of time by a drop until 6:00. */
    private static DoubleUnaryOperator evening(double drop) {
        return hour -> {
            double of = (hour + 6) % 24;
            double sinceSunset = of < 12 ? of : of - 24;
            if (sinceSunset >= 0) {
                return 6 - drop * Math.sqrt(sinceSunset / 12);
            }
            return Math.min(10, 6 - 2 * sinceSunset);
        };
    }

    @Test
    void byDay_nothingIsForetold_beforeTwoHoursBeforeSunset() {
        runTo(15.9, evening(9));

        assertThat(ahead.expected()).isNaN();
        assertThat(ahead.isRough(minute * 60_000L)).isTrue();
    }

    @Test
    void beforeDusk_itIsRough_andSaysSo() {
        runTo(17, evening(9));

        assertThat(ahead.isRough(minute * 60_000L)).isTrue();
        // 10 C less the usual fall of 5 K gives -3.4 C by the book, less the usual drop of 7 K 3 C: between them.
        assertThat(ahead.expected()).isBetween(-3.4, 3.0);
        assertThat(ahead.doubt()).isGreaterThan(2);
    }

    @Test
    void twoHoursAfterSunset_aClearNightIsForetoldWithinTwoDegrees() {
        runTo(20.1, evening(9));

        assertThat(ahead.isRough(minute * 60_000L)).isFalse();
        assertThat(ahead.isClear()).isTrue();
        assertThat(ahead.expected()).isCloseTo(-3, within(2.0));
    }

    @Test
    void aNightThatHardlyCools_isNotForetoldAsClear() {
        runTo(20.1, hour -> 7);

        assertThat(ahead.isClear()).isFalse();
        assertThat(ahead.expected()).isCloseTo(7, within(0.5));
    }

    @Test
    void theForecastComesNearer_asTheNightGoesOn() {
        runTo(20.1, evening(9));
        double early = ahead.doubt();
        runTo(28, evening(9));

        assertThat(ahead.expected()).isCloseTo(-3, within(0.5));
        assertThat(ahead.doubt()).isLessThan(early);
    }

    @Test
    void itComesToTheSite_asItsNightsPass() {
        runTo(24 * 12 + 20.1, evening(9));

        assertThat(ahead.passed())
                .hasSize(12)
                .allSatisfy(night -> assertThat(night.came()).isCloseTo(-3, within(0.05)));
        assertThat(ahead.passed().get(11).missedBy()).isCloseTo(0, within(0.5));
        assertThat(Math.abs(ahead.passed().get(11).missedBy()))
                .isLessThanOrEqualTo(Math.abs(ahead.passed().get(0).missedBy()));
        assertThat(ahead.passed().get(11).rough()).isCloseTo(-3, within(0.7));
        assertThat(ahead.passed().get(3).leaf())
                .isCloseTo(ahead.passed().get(3).lowest() - NightLow.LEAF_BELOW_AIR_C, within(1e-9));
    }

    @Test
    void aNightHardlyHeard_isNotLearntFrom() {
        runTo(48, hour -> hour > 21 && hour < 29 ? Double.NaN : evening(9).applyAsDouble(hour));

        assertThat(ahead.passed()).isEmpty();
    }

    @Test
    void copy_goesOnByItself() {
        runTo(20.1, evening(9));
        var copy = ahead.copy();
        double before = ahead.expected();
        copy.minute((minute + 60) * 60_000L, -8, Double.NaN, 18 * HOUR_MS, 30 * HOUR_MS);

        assertThat(ahead.expected()).isEqualTo(before);
        assertThat(copy.expected()).isLessThanOrEqualTo(-8);
    }
}
