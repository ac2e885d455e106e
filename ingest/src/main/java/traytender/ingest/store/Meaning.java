package traytender.ingest.store;

import traytender.config.reading.Reading;
import traytender.config.site.Probe;

/**
 * What a raw value means, by the probe's calibration in force at the reading's time. The store asks on every read, so that a
 * calibration corrected later holds for what is already on disk. Must give the same answer for the same question, from any thread.
 */
@FunctionalInterface
public interface Meaning {
    /** The calibrated reading, carrying the raw reading's own marks and those of the calibration. */
    Reading of(Probe probe, RawReading raw);
}
