package traytender.ingest.intake;

import java.util.Map;

/**
 * What became of the readings that came in since the start; received = stored + repeated + refused.
 *
 * @param received readings that came in; one message that two probes read counts two, and so does one that cannot be used on a topic that two probes name
 * @param stored new on disk
 * @param repeated on disk already with the same probe and time
 * @param refused could not be used
 * @param unassigned messages on a topic that no probe names
 * @param refusals how many were refused for each cause's word, together {@code refused}
 */
public record Counts(
        long received, long stored, long repeated, long refused, long unassigned, Map<String, Long> refusals) {
    public Counts {
        refusals = Map.copyOf(refusals);
    }
}
