package traytender.ingest.nursery.probe;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;

/**
 * One MQTT message of the simulated nursery.
 *
 * @param time when it is delivered
 * @param text its payload
 * @param readings what is in it
 */
public record SimulatedMessage(Instant time, String topic, String text, List<SimulatedReading> readings) {
    public SimulatedMessage {
        readings = List.copyOf(readings);
    }

    /** The payload's bytes, UTF-8. */
    public byte[] payload() {
        return text.getBytes(StandardCharsets.UTF_8);
    }
}
