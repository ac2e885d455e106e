package traytender.ingest.calibrate;

import java.time.Instant;
import java.util.List;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Calibration;
import traytender.config.site.Dated;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.ingest.store.RawReading;

/** Makes of a raw reading what it means, by the probe's calibration in force at its time. Same question, same answer; any thread. */
public final class Calibrator {
    /** What a DS18B20-type sensor reports before its first conversion (its data sheet: power-on value +85 C). */
    private static final double POWER_ON = 85;
    /** What common drivers report for a DS18B20-type sensor that does not answer (common practice, no source). */
    private static final double NO_ANSWER = -127;
    /** The word 07FF of a DS18B20-type sensor, whole and as drivers print it: no measurement gives it (common practice, no source). */
    private static final List<Double> NO_WORD = List.of(127.9375, 127.94);
    /** Stands for a value beyond every number, since a reading's value is always finite. */
    private static final double BEYOND = 1e9;

    private Calibrator() {}

    /** The calibrated reading, with the raw reading's own marks and those of the calibration. */
    public static Reading read(Probe probe, RawReading raw) {
        Calibration calibration = calibration(probe.calibration(), raw.timeMs());
        Calibrated calibrated = Formulas.apply(calibration, raw.raw());
        double value =
                Double.isNaN(calibrated.value()) ? -BEYOND : Math.max(-BEYOND, Math.min(BEYOND, calibrated.value()));
        int marks = raw.marks();
        if (calibrated.isClamped()) {
            marks |= Marks.CLAMPED;
        }
        if (!quantity(probe, calibration).isPlausible(value)) {
            marks |= Marks.RANGE;
        }
        if (isSensorError(probe.measures(), calibration, raw.raw())) {
            marks |= Marks.SENSOR_ERROR;
        }
        return new Reading(probe.id(), raw.timeMs(), value, raw.raw(), marks);
    }

    /** What was read before the first dated calibration is read by the first one. */
    private static Calibration calibration(Dated<Calibration> dated, long timeMs) {
        return dated.at(Instant.ofEpochMilli(timeMs))
                .orElseGet(() -> dated.values().get(0).value());
    }

    private static Quantity quantity(Probe probe, Calibration calibration) {
        return calibration instanceof Calibration.Weight ? Quantity.MOISTURE : probe.measures();
    }

    private static boolean isErrorWord(double raw) {
        return raw == POWER_ON || raw == NO_ANSWER || NO_WORD.contains(raw);
    }

    /**
     * Only where the raw value is in C: there a true reading of exactly one of these is rare, and a root zone or a mat at 85 C is
     * past all advice. A worked-out value that happens to be 85 is believed.
     */
    private static boolean isSensorError(Quantity measures, Calibration calibration, double raw) {
        boolean isDegrees = calibration instanceof Calibration.None || calibration instanceof Calibration.Offset;
        return switch (measures) {
            case TEMPERATURE, MAT_SURFACE, AIR_TEMPERATURE -> isDegrees && isErrorWord(raw);
            default -> false;
        };
    }
}
