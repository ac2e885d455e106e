package traytender.rules.judge;

import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.alert.Urgency;
import traytender.config.site.Zone;

/**
 * A condition that holds at the end of a minute.
 *
 * @param zone null for a room's
 * @param reason only for {@link AlertKind#MAT_SHUT_OFF}
 * @param value what was measured; NaN when no single number tells it
 * @param limit what it was compared with; NaN as above
 * @param unit UCUM code
 * @param lastingMinutes how long it must hold before it is told
 * @param fact what the words are made from, should it be told
 * @param subject the probe a probe's trouble is about; null otherwise
 */
public record Finding(
        AlertKind kind,
        @Nullable Zone zone,
        @Nullable ShutOffReason reason,
        Urgency urgency,
        double value,
        double limit,
        String unit,
        double lastingMinutes,
        Object fact,
        @Nullable String subject) {}
