package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import traytender.dashboard.page.Outage.Low;
import traytender.dashboard.record.Json;

/** {@code {"outage": null}}, or what the last outage was like. */
final class OutageJson {
    private OutageJson() {}

    static ObjectNode of(Optional<Outage> outage) {
        ObjectNode json = Json.object();
        json.set("outage", outage.map(OutageJson::of).orElse(null));
        return json;
    }

    private static ObjectNode of(Outage outage) {
        ObjectNode json = Json.object();
        json.set("from", Json.time(outage.from()));
        json.set("to", Json.time(outage.to()));
        json.put("cut", outage.wasCut());
        json.set("coldest", lows(outage.coldest(), 2));
        json.set("driest", lows(outage.driest(), 4));
        json.set("probes-not-back", Json.words(outage.probes()));
        json.set("mats-not-back", Json.words(outage.mats()));
        json.set("lamps-not-back", Json.words(outage.lamps()));
        return json;
    }

    private static ArrayNode lows(List<Low> lows, int decimals) {
        ArrayNode array = Json.array();
        for (Low low : lows) {
            ObjectNode json = array.addObject().put("probe", low.probe());
            json.set("value", Json.number(low.value(), decimals));
            json.set("at", Json.time(low.at()));
        }
        return array;
    }
}
