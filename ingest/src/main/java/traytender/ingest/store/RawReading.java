package traytender.ingest.store;

/**
 * One value as its probe sent it: what is stored. What it means is worked out on every read.
 *
 * @param probe the probe's id
 * @param timeMs milliseconds since 1970-01-01T00:00Z at which it was measured
 * @param raw as the probe sent it; always finite, and zero is never negative
 * @param marks bits of {@link traytender.config.reading.Marks} that no later read can find out again, such as the clock's
 */
public record RawReading(String probe, long timeMs, double raw, int marks) {
    public RawReading {
        if (!Double.isFinite(raw)) {
            throw new IllegalArgumentException(probe + " at " + timeMs + ": raw " + raw);
        }
        // SQLite keeps no sign of zero; without this a reading would differ before and after the disk.
        raw = raw + 0.0;
    }
}
