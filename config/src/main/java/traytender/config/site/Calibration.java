package traytender.config.site;

import java.util.List;

/** What turns a probe's raw value into the quantity it measures. Applying it is {@code ingest}'s work. */
public sealed interface Calibration {
    /** The raw value is already in the quantity's unit. */
    record None() implements Calibration {}

    /** Linear between the raw value in air-dry medium (0) and in watered, drained medium (1); clamped outside. */
    record DryWet(double dry, double wet) implements Calibration {}

    /** Piecewise linear through points of increasing raw value; clamped outside. */
    record Points(List<Point> points) implements Calibration {
        public Points {
            points = List.copyOf(points);
        }
    }

    /** One point of {@link Points}. */
    record Point(double raw, double value) {}

    /** {@code c0 + c1 raw + c2 raw^2 + ...}. */
    record Polynomial(List<Double> coefficients) implements Calibration {
        public Polynomial {
            coefficients = List.copyOf(coefficients);
        }
    }

    /**
     * A thermistor in a divider with a series resistor, read by a converter.
     *
     * @param r25 ohms at 25 C
     * @param beta the beta constant in kelvin
     * @param series the series resistor in ohms
     * @param counts the converter's full scale
     */
    record Ntc(double r25, double beta, double series, double counts) implements Calibration {}

    /** Added to the raw value. */
    record Offset(double offset) implements Calibration {}

    /** Weight of a whole tray in g to its moisture: empty-and-dry and watered-and-drained. */
    record Weight(double tare, double drained) implements Calibration {}

    /**
     * A platinum resistance in ohms to C, by IEC 60751.
     *
     * @param r0 ohms at 0 C, 100 for a Pt100
     */
    record Platinum(double r0) implements Calibration {}
}
