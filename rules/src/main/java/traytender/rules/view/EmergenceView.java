package traytender.rules.view;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * When a germinating sowing is due to come up, by thermal time from its root zone at the warmth it has had so far.
 *
 * @param progress share of the thermal time to emergence; 1 when half the seedlings are due
 * @param from when the first seedlings may show; null when it is too cold for it ever to come
 * @param expected when half are due; null as above
 * @param to when the last are due; null as above
 * @param look whether it is time to look
 * @param overdue whether the window has passed: seed or medium may be the reason
 */
public record EmergenceView(
        double progress,
        @Nullable Instant from,
        @Nullable Instant expected,
        @Nullable Instant to,
        boolean look,
        boolean overdue) {}
