package traytender.ingest.calibrate;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.ingest.store.RawReading;

/** Conversions against published tables; where each comes from stands in the README beside them. */
class CalibratorTest {
    private static final Calibration SHT3X_TEMPERATURE = new Calibration.Polynomial(List.of(-45.0, 175.0 / 65535));
    private static final Calibration SHT3X_HUMIDITY = new Calibration.Polynomial(List.of(0.0, 100.0 / 65535));

    @ParameterizedTest
    @CsvFileSource(resources = "pt100.csv", numLinesToSkip = 1)
    void platinum_followsTheTable(double celsius, double tableOhm, double equationOhm) {
        var calibration = new Calibration.Platinum(100);

        assertThat(value(Quantity.MAT_SURFACE, calibration, equationOhm)).isCloseTo(celsius, within(0.001));
        // The table is rounded to a hundredth of an ohm, some 0.013 C to either side.
        assertThat(value(Quantity.MAT_SURFACE, calibration, tableOhm)).isCloseTo(celsius, within(0.014));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "ds18b20.csv", numLinesToSkip = 1)
    void ds18b20_followsItsDataSheet(String word, int raw, double celsius) {
        var calibration = new Calibration.Polynomial(List.of(0.0, 1.0 / 16));

        assertThat((int) (short) Integer.decode(word).intValue()).isEqualTo(raw);
        assertThat(value(Quantity.TEMPERATURE, calibration, raw)).isEqualTo(celsius);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "sht3x.csv", numLinesToSkip = 1)
    void sht3x_followsItsDataSheet(String word, double celsius, double humidity) {
        int raw = Integer.decode(word);

        assertThat(value(Quantity.AIR_TEMPERATURE, SHT3X_TEMPERATURE, raw)).isCloseTo(celsius, within(1e-9));
        assertThat(value(Quantity.HUMIDITY, SHT3X_HUMIDITY, raw)).isCloseTo(humidity, within(1e-9));
    }

    /** The cubic of Topp, Davis and Annan (1980), whose coefficients give the printed values to their rounding (to 0.1 in both columns). */
    @ParameterizedTest
    @CsvFileSource(resources = "topp.csv", numLinesToSkip = 1)
    void polynomial_followsToppsTable(double permittivity, double percent) {
        var topp = new Calibration.Polynomial(List.of(-5.3e-2, 2.92e-2, -5.5e-4, 4.3e-6));

        assertThat(100 * value(Quantity.MOISTURE, topp, permittivity)).isCloseTo(percent, within(0.065));
    }

    /** Frames 02 20 80 AA and 80 65; and the word 0F FF that an odd module sends just below 0 C, which a plain driver shows as 409.5. */
    @Test
    void dht22_isTakenAsItsDriverSaysIt_andItsOddWordIsBeyondRange() {
        var tenths = new Calibration.Polynomial(List.of(0.0, 0.1));

        assertThat(value(Quantity.HUMIDITY, tenths, 0x0220)).isCloseTo(54.4, within(1e-9));
        assertThat(value(Quantity.AIR_TEMPERATURE, tenths, -(0x80AA & 0x7FFF))).isCloseTo(-17.0, within(1e-9));
        assertThat(value(Quantity.AIR_TEMPERATURE, tenths, -(0x8065 & 0x7FFF))).isCloseTo(-10.1, within(1e-9));
        assertThat(read(Quantity.AIR_TEMPERATURE, tenths, 0x0FFF).marks()).isEqualTo(Marks.RANGE);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "ntc-beta.csv", numLinesToSkip = 1)
    void thermistor_followsTheBetaFormula(double ohm, double celsius) {
        var calibration = new Calibration.Ntc(10_000, 3977, 10_000, 4095);
        double counts = 4095 * ohm / (ohm + 10_000);

        assertThat(value(Quantity.TEMPERATURE, calibration, counts)).isCloseTo(celsius, within(0.001));
    }

    @Test
    void thermistor_atTheEndOfItsScaleIsHeldAndMarked() {
        var calibration = new Calibration.Ntc(10_000, 3950, 10_000, 4095);

        assertThat(read(Quantity.TEMPERATURE, calibration, 4095).marks()).isEqualTo(Marks.CLAMPED | Marks.RANGE);
        assertThat(read(Quantity.TEMPERATURE, calibration, 0).marks()).isEqualTo(Marks.CLAMPED | Marks.RANGE);
    }

    @Test
    void dryAndWet_areLinearBetweenAndHeldOutside() {
        var calibration = new Calibration.DryWet(2900, 1300);

        assertThat(value(Quantity.MOISTURE, calibration, 1500)).isEqualTo(0.875);
        assertThat(read(Quantity.MOISTURE, calibration, 1200))
                .extracting(Reading::value, Reading::marks)
                .containsExactly(1.0, Marks.CLAMPED);
        assertThat(read(Quantity.MOISTURE, calibration, 3000))
                .extracting(Reading::value, Reading::marks)
                .containsExactly(0.0, Marks.CLAMPED);
    }

    @Test
    void points_areLinearBetweenAndHeldOutside() {
        var calibration = new Calibration.Points(List.of(
                new Calibration.Point(1000, 1.0), new Calibration.Point(2000, 0.4), new Calibration.Point(3000, 0.0)));

        assertThat(value(Quantity.MOISTURE, calibration, 1500)).isEqualTo(0.7);
        assertThat(value(Quantity.MOISTURE, calibration, 3000)).isEqualTo(0.0);
        assertThat(read(Quantity.MOISTURE, calibration, 900).marks()).isEqualTo(Marks.CLAMPED);
        assertThat(read(Quantity.MOISTURE, calibration, 3001).marks()).isEqualTo(Marks.CLAMPED);
    }

    @Test
    void weight_isTheTraysMoistureAndMayPassFullJustAfterWatering() {
        var calibration = new Calibration.Weight(900, 3400);

        assertThat(value(Quantity.WEIGHT, calibration, 2150)).isEqualTo(0.5);
        assertThat(read(Quantity.WEIGHT, calibration, 3650).marks()).isEqualTo(Marks.NONE);
        assertThat(read(Quantity.WEIGHT, calibration, 9000).marks()).isEqualTo(Marks.RANGE);
    }

    @Test
    void powerOnValue_isASensorsErrorUnlessItWasWorkedOut() {
        assertThat(read(Quantity.TEMPERATURE, new Calibration.None(), 85).has(Marks.SENSOR_ERROR))
                .isTrue();
        assertThat(read(Quantity.MAT_SURFACE, new Calibration.Offset(-0.4), -127)
                        .has(Marks.SENSOR_ERROR))
                .isTrue();
        assertThat(read(Quantity.TEMPERATURE, new Calibration.None(), 127.94).has(Marks.SENSOR_ERROR))
                .isTrue();
        assertThat(read(Quantity.TEMPERATURE, new Calibration.None(), 84.9375).has(Marks.SENSOR_ERROR))
                .isFalse();
        assertThat(read(Quantity.HUMIDITY, new Calibration.None(), 85).marks()).isEqualTo(Marks.NONE);
    }

    @Test
    void polynomialBeyondEveryNumber_isMarkedAndFinite() {
        var calibration = new Calibration.Polynomial(List.of(0.0, 0.0, 1.0));

        assertThat(read(Quantity.TEMPERATURE, calibration, 1e300).has(Marks.RANGE))
                .isTrue();
    }

    @Test
    void datedCalibration_holdsFromItsDateAndTheFirstOneBefore() {
        var since = Instant.parse("2026-03-10T00:00:00Z");
        var dated = new Dated<Calibration>(List.of(
                new Dated.From<>(since, new Calibration.Offset(1)),
                new Dated.From<>(since.plusSeconds(60), new Calibration.Offset(2))));
        Probe probe = probe(Quantity.TEMPERATURE, dated);

        assertThat(List.of(-1L, 0L, 59_999L, 60_000L))
                .map(ms -> Calibrator.read(probe, new RawReading("p", since.toEpochMilli() + ms, 20, Marks.NONE))
                        .value())
                .containsExactly(21.0, 21.0, 21.0, 22.0);
    }

    @Test
    void marksOfTheRawReading_stay() {
        var raw = new RawReading("p", 0, 20, Marks.CLOCK);

        assertThat(Calibrator.read(probe(Quantity.TEMPERATURE, Dated.always(new Calibration.None())), raw)
                        .marks())
                .isEqualTo(Marks.CLOCK);
    }

    private static double value(Quantity measures, Calibration calibration, double raw) {
        return read(measures, calibration, raw).value();
    }

    private static Reading read(Quantity measures, Calibration calibration, double raw) {
        return Calibrator.read(probe(measures, Dated.always(calibration)), new RawReading("p", 0, raw, Marks.NONE));
    }

    private static Probe probe(Quantity measures, Dated<Calibration> calibration) {
        return new Probe(
                "p",
                measures,
                Dated.always(new Place.AtTray("T01")),
                new Binding.Text("t", Map.of()),
                calibration,
                null);
    }
}
