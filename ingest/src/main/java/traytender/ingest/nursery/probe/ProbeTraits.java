package traytender.ingest.nursery.probe;

/**
 * How far a probe is from perfect. All in the unit of its quantity.
 *
 * @param gain what it reads for each unit of truth; 1 when perfect
 * @param offset added to all it reads
 * @param noise standard deviation from reading to reading
 * @param driftPerDay slow change of the offset
 * @param perKelvin moisture only: added for each K of the medium above 20 C
 * @param step values are rounded to this, counts to as many as make it up; 0 for a count that is rounded to whole numbers
 */
public record ProbeTraits(double gain, double offset, double noise, double driftPerDay, double perKelvin, double step) {
    /** A moisture probe with its noise and nothing else wrong. */
    public static ProbeTraits count(double noise) {
        return new ProbeTraits(1, 0, noise, 0, 0, 0);
    }

    /** The same, drifting otherwise. */
    public ProbeTraits drifting(double perDay) {
        return new ProbeTraits(gain, offset, noise, perDay, perKelvin, step);
    }

    /** A probe that reports its value in steps of 0.1. */
    public static ProbeTraits tenths(double noise) {
        return new ProbeTraits(1, 0, noise, 0, 0, 0.1);
    }
}
