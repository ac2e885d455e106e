package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import traytender.config.crop.LimitKey;
import traytender.dashboard.limits.LineMoment;
import traytender.dashboard.limits.LineSuggestion;
import traytender.dashboard.record.Json;

/** Suggested dry lines as JSON. */
final class SuggestionsJson {
    private SuggestionsJson() {}

    static ArrayNode of(List<LineSuggestion> suggestions) {
        ArrayNode json = Json.array();
        suggestions.forEach(suggestion -> json.add(of(suggestion)));
        return json;
    }

    private static ObjectNode of(LineSuggestion suggestion) {
        ObjectNode json = Json.object();
        json.put("crop", suggestion.crop());
        json.put("stage", suggestion.stage().word());
        json.put("limit", LimitKey.DRY_LINE.word());
        json.set("now", Json.number(suggestion.now(), 4));
        json.set("suggested", Json.number(suggestion.suggested().orElse(Double.NaN), 4));
        ArrayNode moments = json.putArray("moments");
        suggestion.moments().forEach(moment -> moments.add(of(moment)));
        ArrayNode tradeoff = json.putArray("tradeoff");
        for (LineSuggestion.Tradeoff one : suggestion.tradeoff()) {
            ObjectNode point = tradeoff.addObject();
            point.set("line", Json.number(one.line(), 2));
            point.put("warned", one.warned());
            point.put("falseAlarms", one.falseAlarms());
        }
        return json;
    }

    private static ObjectNode of(LineMoment moment) {
        ObjectNode json = Json.object();
        json.put("tray", moment.tray());
        json.put("zone", moment.zone().word());
        json.set("at", Json.time(moment.at()));
        json.put("why", moment.why().word());
        json.set("moisture", Json.number(moment.moisture(), 4));
        return json;
    }
}
