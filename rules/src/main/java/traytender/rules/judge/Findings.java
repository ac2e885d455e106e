package traytender.rules.judge;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.alert.Urgency;
import traytender.config.site.Zone;

/** What the rules found at this minute; the rules' only way to speak. <b>Not thread-safe.</b> */
public final class Findings {
    private static final String CELSIUS = "Cel";
    private static final String FRACTION = "1";
    private final List<Finding> list = new ArrayList<>();

    /** Nothing found yet. */
    public Findings() {}

    /** About one zone's moisture. */
    public void moisture(MoistureFacts fact, AlertKind kind, Urgency urgency, double value, double limit) {
        add(kind, fact.zone, null, urgency, value, limit, FRACTION, fact.lastingMinutes, fact);
    }

    /** About one zone, in hours. */
    public void hours(MoistureFacts fact, AlertKind kind, Urgency urgency, double value, double limit) {
        add(kind, fact.zone, null, urgency, value, limit, "h", 0, fact);
    }

    /** About one zone, told at once. */
    public void atOnce(MoistureFacts fact, AlertKind kind, Urgency urgency, double value, double limit) {
        add(kind, fact.zone, null, urgency, value, limit, FRACTION, 0, fact);
    }

    /** About a tray's temperatures. */
    public void heat(TrayFacts fact, AlertKind kind, Zone zone, Urgency urgency, double value, double limit) {
        add(kind, zone, null, urgency, value, limit, CELSIUS, fact.lastingMinutes, fact);
    }

    /** A reason to turn the mat off or down. */
    public void shutOff(
            TrayFacts fact, ShutOffReason reason, Urgency urgency, double value, double limit, double lastingMinutes) {
        String unit = Double.isNaN(value) ? FRACTION : CELSIUS;
        add(AlertKind.MAT_SHUT_OFF, Zone.TRAY, reason, urgency, value, limit, unit, lastingMinutes, fact);
    }

    /** About the mat itself. */
    public void mat(TrayFacts fact, AlertKind kind, Urgency urgency, double value, double limit) {
        add(kind, Zone.TRAY, null, urgency, value, limit, CELSIUS, fact.lastingMinutes, fact);
    }

    /** About a tray's calendar. */
    public void days(CalendarFacts fact, AlertKind kind, Urgency urgency, double value, double limit, String unit) {
        add(kind, Zone.TRAY, null, urgency, value, limit, unit, 0, fact);
    }

    /** About a room. */
    public void room(RoomFacts fact, AlertKind kind, Urgency urgency, double value, double limit, String unit) {
        add(kind, null, null, urgency, value, limit, unit, fact.lastingMinutes, fact);
    }

    /** About a probe. */
    public void probe(ProbeFacts fact, AlertKind kind, Urgency urgency, double value, double limit, String unit) {
        list.add(new Finding(kind, fact.zone, null, urgency, value, limit, unit, 0, fact, fact.probe));
    }

    private void add(
            AlertKind kind,
            @Nullable Zone zone,
            @Nullable ShutOffReason reason,
            Urgency urgency,
            double value,
            double limit,
            String unit,
            double lasting,
            Object fact) {
        list.add(new Finding(kind, zone, reason, urgency, value, limit, unit, lasting, fact, null));
    }

    /** What was found, in the order the rules spoke. */
    public List<Finding> list() {
        return list;
    }

    /** Forgets everything. */
    public void clear() {
        list.clear();
    }
}
