package traytender.ingest.mqtt;

import java.time.Instant;

/**
 * A message as it came. Its payload is never changed.
 *
 * @param payload the bytes, whatever they are, up to {@link #LARGEST}
 * @param arrived when it came, by the program's clock
 * @param isKept whether the broker kept it from before the subscription
 * @param receipt what its acknowledgement needs
 */
@SuppressWarnings("ArrayRecordComponent") // Messages are never compared, and copying each payload would buy nothing.
public record Incoming(String topic, byte[] payload, Instant arrived, boolean isKept, Receipt receipt) {
    /** One byte more than a message may have (64 KiB); of a larger one no more is kept. */
    public static final int LARGEST = 64 * 1024 + 1;

    /** Which message of which connection; an id means nothing on a later connection. */
    record Receipt(int generation, int id, int qos) {}
}
