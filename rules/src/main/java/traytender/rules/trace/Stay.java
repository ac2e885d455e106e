package traytender.rules.trace;

import java.time.Instant;
import traytender.config.crop.Stage;
import traytender.config.site.Probe;
import traytender.config.site.Zone;

/**
 * What a probe in a cell read while one crop stood there at one stage.
 *
 * @param zone where in the tray the cell lies
 * @param crop that judges the cell
 * @param to exclusive
 * @param lowest in the probe's unit
 * @param highest in the probe's unit
 * @param below time below the dry line for moisture, below {@code root-cold} for the root zone's temperature
 * @param above time above the wet line for moisture, above {@code root-hot} for the root zone's temperature
 */
public record Stay(
        Probe probe,
        String tray,
        Zone zone,
        String crop,
        Stage stage,
        Instant from,
        Instant to,
        double lowest,
        double highest,
        Beyond below,
        Beyond above) {}
