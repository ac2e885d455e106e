package traytender.ingest.nursery.world;

/**
 * Chance without state: the same seed, stream and step always give the same number, so that a copied world meets the same
 * weather as the one it was copied from. The mixing is the finaliser of SplitMix64 (Steele, Lea, Flood 2014).
 *
 * @param seed any number
 */
public record Noise(long seed) {
    private static final long GOLDEN = 0x9E3779B97F4A7C15L;

    /** A noise of its own for a named part of the nursery. */
    public Noise of(String name) {
        long hash = seed;
        for (int i = 0; i < name.length(); i++) {
            hash = mix(hash * 31 + name.charAt(i));
        }
        return new Noise(hash);
    }

    /** Even in 0 (inclusive) to 1 (exclusive). */
    public double even(long step) {
        return (mix(seed + GOLDEN * (step + 1)) >>> 11) * 0x1.0p-53;
    }

    /** Even between two bounds. */
    public double between(long step, double low, double high) {
        return low + (high - low) * even(step);
    }

    /** Normal with mean 0 and standard deviation 1, by Box and Muller. */
    public double normal(long step) {
        double radius = Math.sqrt(-2 * Math.log(1 - even(2 * step)));
        return radius * Math.cos(2 * Math.PI * even(2 * step + 1));
    }

    /** A smooth wander in -1 to 1: chance values one unit of {@code x} apart, joined by a cubic. */
    public double smooth(double x) {
        long left = (long) Math.floor(x);
        double part = x - left;
        double bend = part * part * (3 - 2 * part);
        return (2 * even(left) - 1) * (1 - bend) + (2 * even(left + 1) - 1) * bend;
    }

    private static long mix(long value) {
        long z = value;
        z = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
        z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
        return z ^ (z >>> 31);
    }
}
