package traytender.ingest.nursery.probe;

import java.time.Instant;

/**
 * One reading inside a message.
 *
 * @param time the reading's own time, as the message or its arrival tells it
 * @param raw as the probe would send it: a number, or a word
 */
public record SimulatedReading(String probe, Instant time, String raw) {}
