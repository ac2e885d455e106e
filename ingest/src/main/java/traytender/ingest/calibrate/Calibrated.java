package traytender.ingest.calibrate;

/**
 * A calibrated value.
 *
 * @param value in the quantity's unit; may be infinite or NaN where the formula has no answer
 * @param isClamped whether the raw value lay outside what the calibration covers and the value was held at its end
 */
record Calibrated(double value, boolean isClamped) {
    static Calibrated of(double value) {
        return new Calibrated(value, false);
    }

    /** The value held within bounds. */
    static Calibrated held(double value, double lowest, double highest) {
        double held = Math.max(lowest, Math.min(highest, value));
        return new Calibrated(held, held != value);
    }
}
