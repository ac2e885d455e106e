package traytender.ingest.file;

import java.time.Instant;
import java.util.Map;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;

/**
 * The SenML unit (RFC 8428, section 12.1) that a probe's values are written in. A fraction and a switch's position are {@code /}, never
 * {@code %}, which in SenML is an old name for the same and no percentage; mass is in kg, as the RFC does not recommend g.
 *
 * @param symbol as the RFC registers it
 * @param divisor what the value in the quantity's own unit is divided by
 */
record SenMlUnit(String symbol, double divisor) {
    private static final SenMlUnit RATIO = new SenMlUnit("/", 1);

    /** The unit of one reading; a weight becomes a moisture fraction with the calibration that says so. */
    static SenMlUnit of(Probe probe, long timeMs) {
        return switch (probe.measures()) {
            case MOISTURE -> RATIO;
            case TEMPERATURE, MAT_SURFACE, AIR_TEMPERATURE -> new SenMlUnit("Cel", 1);
            case HUMIDITY -> new SenMlUnit("%RH", 1);
            case MAT_POWER -> hasWords(probe.binding()) ? RATIO : new SenMlUnit("W", 1);
            case LIGHT -> hasWords(probe.binding()) ? RATIO : new SenMlUnit("lx", 1);
            case WEIGHT -> isMoisture(probe, timeMs) ? RATIO : new SenMlUnit("kg", 1000);
            case BATTERY -> new SenMlUnit("%EL", 1);
        };
    }

    /** Whether a probe's unit is the same at all times. */
    static boolean isSteady(Probe probe) {
        return probe.measures() != Quantity.WEIGHT;
    }

    private static boolean isMoisture(Probe probe, long timeMs) {
        return probe.calibration()
                .at(Instant.ofEpochMilli(timeMs))
                .filter(calibration -> calibration instanceof Calibration.Weight)
                .isPresent();
    }

    private static boolean hasWords(Binding binding) {
        return !words(binding).isEmpty();
    }

    /** The words a probe's messages may carry in place of a number. */
    static Map<String, Double> words(Binding binding) {
        if (binding instanceof Binding.Text text) {
            return text.words();
        }
        return binding instanceof Binding.Json json ? json.words() : Map.of();
    }
}
