package traytender.rules.bench;

import org.jspecify.annotations.Nullable;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;

/** What one mat's power probe says: since when it heats or rests. <b>Not thread-safe.</b> */
final class MatTrack {
    private final String mat;
    private final ProbeTrack track;
    private double most;
    private boolean heating;
    private long sinceMs = Long.MIN_VALUE;
    private long lastHeatMs = Long.MIN_VALUE;

    MatTrack(String mat, Probe probe) {
        this.mat = mat;
        this.track = new ProbeTrack(probe);
    }

    private MatTrack(MatTrack other) {
        mat = other.mat;
        track = other.track.copy();
        most = other.most;
        heating = other.heating;
        sinceMs = other.sinceMs;
        lastHeatMs = other.lastHeatMs;
    }

    MatTrack copy() {
        return new MatTrack(this);
    }

    String mat() {
        return mat;
    }

    ProbeTrack track() {
        return track;
    }

    boolean isPower() {
        return track.probe().measures() == Quantity.MAT_POWER;
    }

    void take(Reading reading, long listenedMinutes) {
        track.take(reading, listenedMinutes);
        if (!isPower()) {
            return;
        }
        most = Math.max(most, reading.value());
        // Words are 1 and 0; of watts a fifth of the most ever seen is heating, less is the controller's own draw.
        boolean now = reading.value() >= Math.max(0.5, 0.2 * most);
        if (now != heating || sinceMs == Long.MIN_VALUE) {
            heating = now;
            sinceMs = reading.timeMs();
        }
        if (now) {
            lastHeatMs = reading.timeMs();
        }
    }

    boolean isKnown(long listenedMinutes) {
        return isPower() && track.isFresh(listenedMinutes);
    }

    boolean isHeating() {
        return heating;
    }

    /** Minutes in the present state; 0 before the first reading. */
    double minutesSince(long nowMs) {
        return sinceMs == Long.MIN_VALUE ? 0 : (nowMs - sinceMs) / 60_000.0;
    }

    /** Minutes since it last heated; infinite when it never did. */
    double minutesSinceHeat(long nowMs) {
        return lastHeatMs == Long.MIN_VALUE ? Double.POSITIVE_INFINITY : (nowMs - lastHeatMs) / 60_000.0;
    }

    @Nullable
    Reading last() {
        return track.last();
    }
}
