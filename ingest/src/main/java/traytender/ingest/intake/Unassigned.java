package traytender.ingest.intake;

import java.time.Instant;

/**
 * A topic that no probe names.
 *
 * @param payload the beginning of its newest message, as far as it can be shown as text
 * @param whole all of its newest message; empty when it is longer than 4 kB
 * @param count how many messages came
 * @param last when the newest one came
 */
public record Unassigned(String topic, String payload, String whole, long count, Instant last) {}
