package traytender.rules.view;

import org.jspecify.annotations.Nullable;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;

/**
 * A probe's last word and its health.
 *
 * @param last its newest reading; null when it was never heard
 */
public record ProbeView(Probe probe, @Nullable Reading last, ProbeHealth health) {}
