package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import traytender.dashboard.record.Json;
import traytender.rules.trace.Beyond;
import traytender.rules.trace.Stay;

/** What the trays really did, beside the limits of what stood in them. */
final class StaysJson {
    private StaysJson() {}

    static ArrayNode of(List<Stay> stays) {
        ArrayNode json = Json.array();
        for (Stay stay : stays) {
            ObjectNode one = json.addObject();
            one.put("tray", stay.tray());
            one.put("zone", stay.zone().word());
            one.put("probe", stay.probe().id());
            one.put("measures", stay.probe().measures().word());
            one.put("unit", stay.probe().measures().unit());
            one.put("crop", stay.crop());
            one.put("stage", stay.stage().word());
            one.set("from", Json.time(stay.from()));
            one.set("to", Json.time(stay.to()));
            one.set("lowest", Json.number(stay.lowest(), 4));
            one.set("highest", Json.number(stay.highest(), 4));
            one.set("below", beyond(stay.below()));
            one.set("above", beyond(stay.above()));
        }
        return json;
    }

    private static ObjectNode beyond(Beyond beyond) {
        ObjectNode json = Json.object();
        json.set("limit", Json.number(beyond.limit(), 4));
        json.set("hours", Json.number(beyond.hours(), 2));
        return json;
    }
}
