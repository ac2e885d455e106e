package traytender.ingest.store;

import java.time.Instant;

/**
 * From when to when a probe has readings.
 *
 * @param probe its id
 * @param first time of its oldest reading
 * @param last time of its newest reading
 */
public record Extent(String probe, Instant first, Instant last) {
    /** From the earlier first to the later last of the two. */
    Extent with(Extent other) {
        return new Extent(
                probe, first.isBefore(other.first) ? first : other.first, last.isAfter(other.last) ? last : other.last);
    }
}
