package traytender.rules.book;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.site.Zone;
import traytender.rules.judge.Finding;

/**
 * The alerts of one tray or room. A finding opens an alert once it has held for its lasting-minutes without a break; the alert
 * closes once its finding has been gone for a while; for half an hour after that the same one does not open again. One open
 * alert a kind, place and reason; ids depend on nothing but kind, place, zone, reason and opening time. An open alert whose finding
 * has become more urgent for as long as an alert must last is raised to that; it never falls back.
 *
 * <p>The clear margin is not kept here: while an alert is open its unit moves the line a rule compares with (see {@link
 * #isOpen}).
 *
 * <p><b>Not thread-safe.</b>
 */
public final class AlertBook {
    private static final long MINUTE_MS = 60_000;
    /** A finding interrupted by a longer gap in time starts to last anew. */
    private static final long LONGEST_STEP_MS = 20 * MINUTE_MS;
    /** After closing, the same alert stays closed for this long; our choice, so that nothing flaps. */
    private static final long COOL_DOWN_MS = 31 * MINUTE_MS;

    private final String place;
    private final boolean isRoom;
    private final Map<Key, Entry> entries;
    private final List<Alert> alerts;
    private long lastMs = Long.MIN_VALUE;

    /** What there is one open alert of. Overheating moves with the hottest zone and stays one alert. */
    private record Key(
            AlertKind kind, @Nullable Zone zone, @Nullable ShutOffReason reason) {
        static Key of(Finding finding) {
            boolean wanders = finding.kind() == AlertKind.CENTRE_OVERHEATING;
            return new Key(finding.kind(), wanders ? Zone.TRAY : finding.zone(), finding.reason());
        }
    }

    /** One condition's history: pending, open, or cooling down. */
    private static final class Entry {
        private long sinceMs = Long.MIN_VALUE;
        private long seenMs = Long.MIN_VALUE;
        private int open = -1;
        private long closedMs = Long.MIN_VALUE;
        /** Since when an open alert's finding has been graver than it without a break. */
        private long graverSinceMs = Long.MIN_VALUE;

        Entry copy() {
            var copy = new Entry();
            copy.sinceMs = sinceMs;
            copy.seenMs = seenMs;
            copy.open = open;
            copy.closedMs = closedMs;
            copy.graverSinceMs = graverSinceMs;
            return copy;
        }
    }

    /** An empty book of a tray or a room. */
    public AlertBook(String place, boolean isRoom) {
        this(place, isRoom, new HashMap<>(), new ArrayList<>());
    }

    private AlertBook(String place, boolean isRoom, Map<Key, Entry> entries, List<Alert> alerts) {
        this.place = place;
        this.isRoom = isRoom;
        this.entries = entries;
        this.alerts = alerts;
    }

    /** A copy that goes on by itself. */
    public AlertBook copy() {
        var copied = new HashMap<Key, Entry>();
        entries.forEach((key, entry) -> copied.put(key, entry.copy()));
        var copy = new AlertBook(place, isRoom, copied, new ArrayList<>(alerts));
        copy.lastMs = lastMs;
        return copy;
    }

    /**
     * Takes what was found at the end of a minute.
     *
     * @param untold zones about whose plants nothing can be said now; their alerts stay as they are
     * @param words makes the text of an alert that opens
     */
    public void judge(long minuteMs, List<Finding> findings, Untold untold, Words words) {
        boolean gap = lastMs != Long.MIN_VALUE && minuteMs - lastMs > LONGEST_STEP_MS;
        lastMs = minuteMs;
        for (int i = 0; i < findings.size(); i++) {
            take(minuteMs, findings.get(i), gap, words);
        }
        close(minuteMs, untold);
    }

    /** Which alerts nothing can be said about at this minute. */
    @FunctionalInterface
    public interface Untold {
        /** Whether a kind in a zone can be neither seen nor ruled out. */
        boolean covers(AlertKind kind, @Nullable Zone zone);
    }

    /** Makes an alert's text when it opens. */
    @FunctionalInterface
    public interface Words {
        /** The text of an alert that opens. */
        Text of(Finding finding);
    }

    /** What an alert says beside its figures. */
    public record Text(
            String says,
            String does,
            List<String> probes,
            @Nullable String sowing,
            Alert.@Nullable Forecast forecast) {}

    private void take(long minuteMs, Finding finding, boolean gap, Words words) {
        Key key = Key.of(finding);
        Entry entry = entries.computeIfAbsent(key, k -> new Entry());
        if (entry.seenMs == minuteMs) {
            return;
        }
        boolean broken = gap || entry.seenMs == Long.MIN_VALUE || minuteMs - entry.seenMs > LONGEST_STEP_MS;
        if (entry.open < 0 && (broken || entry.sinceMs == Long.MIN_VALUE)) {
            entry.sinceMs = minuteMs;
        }
        entry.seenMs = minuteMs;
        if (entry.open >= 0) {
            raise(minuteMs, entry, finding, broken);
            return;
        }
        boolean lasted = lasted(entry.sinceMs, minuteMs, finding);
        boolean cooled = entry.closedMs == Long.MIN_VALUE || minuteMs - entry.closedMs >= COOL_DOWN_MS;
        if (lasted && cooled) {
            entry.open = alerts.size();
            entry.graverSinceMs = Long.MIN_VALUE;
            alerts.add(open(minuteMs, finding, words.of(finding)));
        }
    }

    private void raise(long minuteMs, Entry entry, Finding finding, boolean broken) {
        Alert alert = alerts.get(entry.open);
        if (finding.urgency().compareTo(alert.urgency()) >= 0) {
            entry.graverSinceMs = Long.MIN_VALUE;
            return;
        }
        if (broken || entry.graverSinceMs == Long.MIN_VALUE) {
            entry.graverSinceMs = minuteMs;
        }
        if (lasted(entry.graverSinceMs, minuteMs, finding)) {
            alerts.set(entry.open, alert.withUrgency(finding.urgency()));
            entry.graverSinceMs = Long.MIN_VALUE;
        }
    }

    private static boolean lasted(long sinceMs, long minuteMs, Finding finding) {
        return minuteMs - sinceMs >= Math.round(finding.lastingMinutes() * MINUTE_MS);
    }

    private Alert open(long minuteMs, Finding finding, Text text) {
        Zone zone = finding.zone();
        return new Alert(
                id(finding, minuteMs),
                finding.kind(),
                isRoom ? null : place,
                isRoom ? place : null,
                zone,
                finding.urgency(),
                Instant.ofEpochMilli(minuteMs),
                null,
                finding.reason(),
                finding.value(),
                finding.limit(),
                finding.unit(),
                text.probes(),
                text.sowing(),
                text.says(),
                text.does(),
                text.forecast());
    }

    private String id(Finding finding, long minuteMs) {
        String name =
                finding.kind().word() + '|' + place + '|' + finding.zone() + '|' + finding.reason() + '|' + minuteMs;
        return UUID.nameUUIDFromBytes(name.getBytes(StandardCharsets.UTF_8)).toString();
    }

    private void close(long minuteMs, Untold untold) {
        for (Iterator<Map.Entry<Key, Entry>> all = entries.entrySet().iterator(); all.hasNext(); ) {
            Map.Entry<Key, Entry> next = all.next();
            Entry entry = next.getValue();
            if (entry.seenMs == minuteMs) {
                continue;
            }
            if (untold.covers(next.getKey().kind(), next.getKey().zone())) {
                entry.seenMs = entry.open >= 0 ? minuteMs : entry.seenMs;
                continue;
            }
            if (entry.open < 0) {
                entry.sinceMs = Long.MIN_VALUE;
                if (entry.closedMs == Long.MIN_VALUE || minuteMs - entry.closedMs >= COOL_DOWN_MS) {
                    all.remove();
                }
            } else if (minuteMs - entry.seenMs >= clearMs(next.getKey().kind())) {
                alerts.set(entry.open, alerts.get(entry.open).withClosed(Instant.ofEpochMilli(minuteMs)));
                entry.open = -1;
                entry.closedMs = minuteMs;
                entry.sinceMs = Long.MIN_VALUE;
            }
        }
    }

    /** How long a finding must be gone before its alert closes; our choice. What heats comes and goes with the mat. */
    private static long clearMs(AlertKind kind) {
        return switch (kind) {
            case DRY, MISSED_WATERING, LIGHT_OUT -> 5 * MINUTE_MS;
            case DRYING_SOON, UNEVEN_DRYING, STAYING_WET, NIGHT_COLD, AIR_HOT, ROOT_COLD -> 15 * MINUTE_MS;
            case CENTRE_OVERHEATING, UNEVEN_HEAT, MAT_NOT_HEATING, MAT_NOT_STOPPING, FROST_RISK, DAMP_AIR ->
                30 * MINUTE_MS;
            case MAT_SHUT_OFF -> 45 * MINUTE_MS;
            case PROBE_SILENT -> 0;
            case PROBE_STUCK, PROBE_JUMPING, PROBE_RANGE, PROBE_ODD, PROBE_CLOCK, BATTERY_LOW -> 30 * MINUTE_MS;
            case POT_UP_DUE, MOVE_WAIT, FEED_WAIT, PLANT_OUT_READY -> 60 * MINUTE_MS;
        };
    }

    /** Whether such an alert is open, so that its clear margin applies. */
    public boolean isOpen(AlertKind kind, @Nullable Zone zone, @Nullable ShutOffReason reason) {
        Entry entry = entries.get(new Key(kind, zone, reason));
        return entry != null && entry.open >= 0;
    }

    /** Whether such an alert is open, or was until a moment ago. */
    public boolean isTold(AlertKind kind, @Nullable Zone zone, @Nullable ShutOffReason reason) {
        Entry entry = entries.get(new Key(kind, zone, reason));
        return entry != null && (entry.open >= 0 || entry.closedMs != Long.MIN_VALUE);
    }

    /** Every alert so far, in order of opening; a live list, not a copy. */
    public List<Alert> alerts() {
        return alerts;
    }
}
