package traytender.dashboard.record;

import com.fasterxml.jackson.databind.node.ObjectNode;
import traytender.config.alert.Alert;
import traytender.config.alert.ShutOffReason;
import traytender.config.site.Zone;

/** An alert's record as JSON, the same on the page, in files and in messages. */
public final class AlertJson {
    private static final int DECIMALS = 4;

    private AlertJson() {}

    /** The record; an alert about a room has {@code room} in place of {@code tray} and no {@code zone}. */
    public static ObjectNode of(Alert alert) {
        ObjectNode record = Json.object();
        record.put("id", alert.id());
        record.put("kind", alert.kind().word());
        putPlace(record, alert);
        record.put("urgency", alert.urgency().word());
        record.set("opened", Json.time(alert.opened()));
        record.set("closed", Json.time(alert.closed()));
        ShutOffReason reason = alert.reason();
        record.put("reason", reason == null ? null : reason.word());
        record.set("value", Json.number(alert.value(), DECIMALS));
        record.set("limit", Json.number(alert.limit(), DECIMALS));
        record.put("unit", alert.unit());
        record.set("probes", Json.words(alert.probes()));
        record.put("sowing", alert.sowing());
        record.put("says", alert.says());
        record.put("do", alert.does());
        putForecast(record, alert);
        return record;
    }

    /** The record on one line. */
    public static String line(Alert alert) {
        return Json.write(of(alert));
    }

    private static void putPlace(ObjectNode record, Alert alert) {
        if (alert.room() != null) {
            record.put("room", alert.room());
            return;
        }
        record.put("tray", alert.tray());
        Zone zone = alert.zone();
        record.put("zone", zone == null ? null : zone.word());
    }

    private static void putForecast(ObjectNode record, Alert alert) {
        Alert.Forecast forecast = alert.forecast();
        if (forecast != null) {
            record.set("expected", Json.time(forecast.expected()));
            record.set("earliest", Json.time(forecast.earliest()));
            record.set("latest", Json.time(forecast.latest()));
        }
    }
}
