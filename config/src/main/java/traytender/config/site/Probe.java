package traytender.config.site;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * One measured quantity at one place.
 *
 * @param id unique among probes
 * @param at where it is, dated
 * @param binding where its value stands in the messages
 * @param calibration what its raw value means, dated
 * @param every how often it is expected to report; null when not said
 */
public record Probe(
        String id,
        Quantity measures,
        Dated<Place> at,
        Binding binding,
        Dated<Calibration> calibration,
        @Nullable Duration every) {}
