package traytender.ingest.intake;

import java.time.Instant;

/**
 * What of one topic was refused for one cause.
 *
 * @param cause the cause's word, for example {@code not-a-number}
 * @param count how many
 * @param firstBytes the beginning of the newest one, as far as it can be shown as text
 * @param last when the newest one came
 */
public record Refusal(String cause, String topic, long count, String firstBytes, Instant last) {}
