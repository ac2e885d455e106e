package traytender.ingest.calibrate;

import java.util.List;
import traytender.config.site.Calibration;
import traytender.config.site.Calibration.Point;

/** The formula of each kind of calibration. */
final class Formulas {
    private static final double KELVIN = 273.15;
    /** 25 C, at which a thermistor's nominal resistance is given. */
    private static final double KELVIN_AT_25 = 298.15;
    /** Half a count: nearer to the ends of its scale a converter says only that it is at the end. */
    private static final double HALF_COUNT = 0.5;

    /** Constants of IEC 60751 for platinum of 3850 ppm/K: R = R0 (1 + A t + B t^2 + C (t - 100) t^3), the last term below 0 C. */
    private static final double PLATINUM_A = 3.9083e-3;

    private static final double PLATINUM_B = -5.775e-7;
    private static final double PLATINUM_C = -4.183e-12;
    private static final int NEWTON_STEPS = 8;

    private Formulas() {}

    /** The value of a raw value. */
    static Calibrated apply(Calibration calibration, double raw) {
        if (calibration instanceof Calibration.None) {
            return Calibrated.of(raw);
        }
        if (calibration instanceof Calibration.Offset offset) {
            return Calibrated.of(raw + offset.offset());
        }
        if (calibration instanceof Calibration.DryWet ends) {
            return Calibrated.held((raw - ends.dry()) / (ends.wet() - ends.dry()), 0, 1);
        }
        if (calibration instanceof Calibration.Points points) {
            return between(points.points(), raw);
        }
        if (calibration instanceof Calibration.Polynomial polynomial) {
            return Calibrated.of(horner(polynomial.coefficients(), raw));
        }
        if (calibration instanceof Calibration.Ntc ntc) {
            return thermistor(ntc, raw);
        }
        if (calibration instanceof Calibration.Weight weight) {
            return Calibrated.of((raw - weight.tare()) / (weight.drained() - weight.tare()));
        }
        if (calibration instanceof Calibration.Platinum platinum) {
            return Calibrated.of(platinum(raw / platinum.r0()));
        }
        throw new IllegalArgumentException("no formula for " + calibration);
    }

    private static Calibrated between(List<Point> points, double raw) {
        Point first = points.get(0);
        Point last = points.get(points.size() - 1);
        if (raw < first.raw()) {
            return new Calibrated(first.value(), true);
        }
        for (int i = 1; i < points.size(); i++) {
            Point low = points.get(i - 1);
            Point high = points.get(i);
            if (raw <= high.raw()) {
                double share = (raw - low.raw()) / (high.raw() - low.raw());
                return Calibrated.of(low.value() + share * (high.value() - low.value()));
            }
        }
        return new Calibrated(last.value(), raw > last.raw());
    }

    private static double horner(List<Double> coefficients, double raw) {
        double sum = 0;
        for (int i = coefficients.size() - 1; i >= 0; i--) {
            sum = sum * raw + coefficients.get(i);
        }
        return sum;
    }

    /**
     * The beta formula 1/T = 1/298.15 + ln(R/R25)/beta, T in kelvin. The thermistor lies between the converter's input and ground,
     * the series resistor between input and supply, so R = series raw / (counts - raw).
     */
    private static Calibrated thermistor(Calibration.Ntc ntc, double raw) {
        Calibrated counts = Calibrated.held(raw, HALF_COUNT, ntc.counts() - HALF_COUNT);
        double ohms = ntc.series() * counts.value() / (ntc.counts() - counts.value());
        double kelvin = 1 / (1 / KELVIN_AT_25 + Math.log(ohms / ntc.r25()) / ntc.beta());
        return new Calibrated(kelvin - KELVIN, counts.isClamped());
    }

    /** The temperature at which the resistance is that many times the one at 0 C. */
    private static double platinum(double ratio) {
        double discriminant = PLATINUM_A * PLATINUM_A - 4 * PLATINUM_B * (1 - ratio);
        double celsius = (-PLATINUM_A + Math.sqrt(discriminant)) / (2 * PLATINUM_B);
        if (ratio >= 1) {
            return celsius;
        }
        for (int i = 0; i < NEWTON_STEPS; i++) {
            double t = celsius;
            double value = 1 + PLATINUM_A * t + PLATINUM_B * t * t + PLATINUM_C * (t - 100) * t * t * t - ratio;
            double slope = PLATINUM_A + 2 * PLATINUM_B * t + PLATINUM_C * (4 * t - 300) * t * t;
            celsius = t - value / slope;
        }
        return celsius;
    }
}
