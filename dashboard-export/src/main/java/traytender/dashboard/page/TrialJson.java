package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.dashboard.limits.Difference;
import traytender.dashboard.limits.HoursOutside;
import traytender.dashboard.limits.Trial;
import traytender.dashboard.record.AlertJson;
import traytender.dashboard.record.Json;
import traytender.ingest.store.Act;

/** How far a trial of other limits has come, and what it found. */
final class TrialJson {
    private TrialJson() {}

    /** @param marks what the grower said of alerts, by their id */
    static ObjectNode of(Trial trial, Map<String, Act> marks) {
        ObjectNode json = Json.object();
        json.put("number", trial.number());
        json.put("state", trial.state().name().toLowerCase(Locale.ROOT));
        json.set("progress", Json.number(trial.progress(), 3));
        json.set("from", Json.time(trial.from()));
        json.set("to", Json.time(trial.to()));
        json.put("trouble", trial.trouble());
        ArrayNode differences = json.putArray("differences");
        for (Difference difference : trial.differences()) {
            ObjectNode one = differences.addObject();
            one.put("what", difference.what().name().toLowerCase(Locale.ROOT));
            one.set("before", alert(difference.before()));
            one.set("after", alert(difference.after()));
            one.put("mark", mark(difference.before(), marks));
        }
        ArrayNode outside = json.putArray("outside");
        for (HoursOutside hours : trial.outside()) {
            ObjectNode one = outside.addObject();
            one.put("tray", hours.tray());
            one.put("limit", hours.limit().word());
            one.set("before", Json.number(hours.before(), 2));
            one.set("after", Json.number(hours.after(), 2));
        }
        return json;
    }

    private static @Nullable ObjectNode alert(@Nullable Alert alert) {
        return alert == null ? null : AlertJson.of(alert);
    }

    /** What the grower said of the alert when it came; null when nothing. */
    private static @Nullable String mark(@Nullable Alert alert, Map<String, Act> marks) {
        Act act = alert == null ? null : marks.get(alert.id());
        return act == null ? null : act.mark().word();
    }
}
