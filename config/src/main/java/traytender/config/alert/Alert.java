package traytender.config.alert;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Zone;

/**
 * Something the grower should know or do. What it says and its figures are as at opening; {@link #closed} comes later, and a
 * graver {@link #urgency} when it gets worse.
 *
 * @param id the same for the same kind, place, reason and opening time, in live and in replay
 * @param tray the tray it is about; null for a room's alert
 * @param room the room it is about; null for a tray's alert
 * @param zone the zone; null for a room's alert
 * @param opened when the condition had lasted long enough
 * @param closed when it ended; null while open
 * @param reason only for {@link AlertKind#MAT_SHUT_OFF}, else null
 * @param value what was measured, in {@code unit}; NaN when no single number tells it
 * @param limit what it was compared with, in {@code unit}; NaN when no single number tells it
 * @param unit UCUM code
 * @param probes ids of the probes it rests on
 * @param sowing the variety whose limits were the strictest; null when none is concerned
 * @param says what is so, in the grower's words
 * @param does what to do, in the grower's words ({@code do} in JSON)
 * @param forecast when it is expected; only for {@link AlertKind#DRYING_SOON}, else null
 */
public record Alert(
        String id,
        AlertKind kind,
        @Nullable String tray,
        @Nullable String room,
        @Nullable Zone zone,
        Urgency urgency,
        Instant opened,
        @Nullable Instant closed,
        @Nullable ShutOffReason reason,
        double value,
        double limit,
        String unit,
        List<String> probes,
        @Nullable String sowing,
        String says,
        String does,
        @Nullable Forecast forecast) {
    /** An expected time with its 80 percent interval. */
    public record Forecast(Instant expected, Instant earliest, Instant latest) {}

    public Alert {
        if ((tray == null) == (room == null)) {
            throw new IllegalArgumentException("an alert is about a tray or a room, not " + tray + " and " + room);
        }
        probes = List.copyOf(probes);
    }

    /** Whether it has not closed yet. */
    public boolean isOpen() {
        return closed == null;
    }

    /** This alert, closed at that time. */
    public Alert withClosed(Instant time) {
        return new Alert(
                id, kind, tray, room, zone, urgency, opened, time, reason, value, limit, unit, probes, sowing, says,
                does, forecast);
    }

    /** This alert, as urgent as that. */
    public Alert withUrgency(Urgency other) {
        return new Alert(
                id, kind, tray, room, zone, other, opened, closed, reason, value, limit, unit, probes, sowing, says,
                does, forecast);
    }

    /** The tray or room it is about. */
    public String place() {
        if (tray != null) {
            return tray;
        }
        return room == null ? "" : room;
    }
}
