package traytender.config.site;

import java.time.LocalTime;

/**
 * The hours of the day in which a room's lamps burn, in the site's own time. May run over midnight.
 *
 * @param on when they come on, inclusive
 * @param off when they go out, exclusive
 */
public record LampHours(LocalTime on, LocalTime off) {
    /** Whether the lamps should burn at this time of day. */
    public boolean contains(LocalTime time) {
        boolean afterOn = !time.isBefore(on);
        boolean beforeOff = time.isBefore(off);
        return on.isBefore(off) ? afterOn && beforeOff : afterOn || beforeOff;
    }
}
