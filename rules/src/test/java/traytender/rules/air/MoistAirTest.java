package traytender.rules.air;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.reference.Reference.number;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import traytender.rules.reference.Reference;

/** Sources: FAO-56 equations 11 and 13, by the worked values of svp-fao56.csv and psychro-checks.csv. */
class MoistAirTest {
    @Test
    void saturation_followsThePublishedTable() {
        for (var row : Reference.rows("svp-fao56.csv")) {
            double celsius = number(row, "celsius");
            assertThat(MoistAir.saturationKpa(celsius)).isCloseTo(number(row, "es_kPa_5dec"), within(0.00001));
            assertThat(MoistAir.saturationSlopeKpa(celsius))
                    .isCloseTo(number(row, "slope_kPa_per_C_eq13"), within(0.00006));
            if (!row.get("published_kPa").isEmpty()) {
                assertThat(MoistAir.saturationKpa(celsius)).isCloseTo(number(row, "published_kPa"), within(0.005));
            }
        }
    }

    @Test
    void deficitAndDewPoint_followTheWorkedValues() {
        int checked = 0;
        for (var row : Reference.rows("psychro-checks.csv")) {
            String[] input =
                    row.get("input").replace("T ", "").replace("RH ", "").split(", ");
            double expected = input.length == 2 ? number(row, "expected") : Double.NaN;
            if (row.get("check").equals("VPD")) {
                assertThat(MoistAir.deficitKpa(Double.parseDouble(input[0]), Double.parseDouble(input[1])))
                        .isCloseTo(expected, within(0.0005));
                checked++;
            } else if (row.get("check").equals("dew point, eq. 11 inverse")) {
                assertThat(MoistAir.dewPoint(Double.parseDouble(input[0]), Double.parseDouble(input[1])))
                        .isCloseTo(expected, within(0.01));
                checked++;
            }
        }

        assertThat(checked).isEqualTo(7);
    }

    @Test
    void dewPoint_ofDryAir_isBelowEverything() {
        assertThat(MoistAir.dewPoint(20, 0)).isEqualTo(Double.NEGATIVE_INFINITY);
    }

    @Property(seed = "20260314")
    void dewPoint_isTheTemperatureAtWhichTheVapourSaturates(
            @ForAll @DoubleRange(min = -5, max = 50) double celsius,
            @ForAll @DoubleRange(min = 1, max = 100) double humidity) {
        double dew = MoistAir.dewPoint(celsius, humidity);

        assertThat(MoistAir.saturationKpa(dew)).isCloseTo(MoistAir.vapourKpa(celsius, humidity), within(1e-9));
        assertThat(dew).isLessThanOrEqualTo(celsius + 1e-9);
    }
}
