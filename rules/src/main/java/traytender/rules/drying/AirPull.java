package traytender.rules.drying;

/** How hard the air draws water at a time, past or to come, as a multiple of its usual pull in that place. */
@FunctionalInterface
public interface AirPull {
    /** Multiple of the usual pull, above 0; 1 when nothing is known. */
    double at(long timeMs);

    /** The usual pull at all times. */
    AirPull USUAL = timeMs -> 1;
}
