package traytender.rules.view;

import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.site.Zone;

/**
 * What is known of one zone that has at least one probe.
 *
 * @param moisture filtered, fraction of container capacity; NaN without a moisture probe or before its first reading
 * @param spread standard deviation of {@code moisture}; NaN as above
 * @param rate drying rate since the last watering, fraction per hour, positive while it dries; NaN while too little is known
 * @param rateError standard error of {@code rate}; NaN as above
 * @param forecast when it reaches its dry line, the next watering thought away; null when unknown or not within reach
 * @param dryLine of the most demanding sowing in the zone
 * @param wetLine of the most demanding sowing in the zone
 * @param temperature root zone, C; NaN without a probe
 * @param probes ids of the probes in the zone
 * @param trusted false while the zone's probes are in doubt
 */
public record ZoneView(
        Zone zone,
        double moisture,
        double spread,
        double rate,
        double rateError,
        Alert.@Nullable Forecast forecast,
        double dryLine,
        double wetLine,
        double temperature,
        List<String> probes,
        boolean trusted) {}
