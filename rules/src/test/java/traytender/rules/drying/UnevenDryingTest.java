package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import traytender.rules.drying.UnevenDrying.Loss;

/** Arithmetic. */
class UnevenDryingTest {
    @Test
    void ratio_isFastestOverSlowest_andSurelyLess() {
        var uneven = Objects.requireNonNull(UnevenDrying.of(
                List.of(new Loss(0.30, 0.004), new Loss(0.15, 0.004), new Loss(0.20, 0.004), new Loss(Double.NaN, 1))));

        assertThat(uneven.fastest()).isZero();
        assertThat(uneven.slowest()).isEqualTo(1);
        assertThat(uneven.ratio()).isCloseTo(2, within(1e-12));
        assertThat(uneven.surely()).isBetween(1.85, 1.99);
    }

    @Test
    void smallLosses_sayNothing() {
        assertThat(UnevenDrying.of(List.of(new Loss(0.02, 0.004), new Loss(0.005, 0.004))))
                .isNull();
        assertThat(UnevenDrying.of(List.of(new Loss(0.4, 0.004)))).isNull();
    }
}
