package traytender.ingest.intake;

import java.time.Instant;

/**
 * A topic that no probe names.
 *
 * @param payload the beginning of its newest message, as far as it can be shown as text
 * @param count how many messages came
 * @param last when the newest one came
 */
public record Unassigned(String topic, String payload, long count, Instant last) {}
