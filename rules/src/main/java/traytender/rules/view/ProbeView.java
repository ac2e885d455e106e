package traytender.rules.view;

import org.jspecify.annotations.Nullable;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;

/**
 * A probe's last word and its health.
 *
 * @param last its newest reading; null when it was never heard
 * @param offeredWet the raw reading that would be full if what it now reads in soaked, drained medium is believed; NaN when that has not wandered. Offered
 *     to the grower only: nothing takes it by itself
 */
public record ProbeView(Probe probe, @Nullable Reading last, ProbeHealth health, double offeredWet) {
    /** A probe whose reading in soaked medium has not wandered. */
    public ProbeView(Probe probe, @Nullable Reading last, ProbeHealth health) {
        this(probe, last, health, Double.NaN);
    }
}
