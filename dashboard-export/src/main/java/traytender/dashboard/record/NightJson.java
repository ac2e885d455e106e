package traytender.dashboard.record;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import traytender.rules.night.NightForecast;
import traytender.rules.night.NightReport;
import traytender.rules.trace.Beyond;
import traytender.rules.trace.Gap;

/** A night's report as JSON, the same on the page and in files. Temperatures are in C. */
public final class NightJson {
    private static final double SECONDS_PER_HOUR = 3600;

    private NightJson() {}

    /** The report; a value without a reading, and a limit that does not apply, is null. */
    public static ObjectNode of(NightReport report) {
        ObjectNode json = Json.object();
        json.put("date", report.date().toString());
        json.set("sunset", Json.time(report.sunset()));
        json.set("sunrise", Json.time(report.sunrise()));
        json.put("bySun", report.bySun());
        json.put("complete", report.complete());
        ArrayNode probes = json.putArray("probes");
        report.probes().forEach(probe -> probes.add(probe(probe)));
        ArrayNode rooms = json.putArray("rooms");
        report.rooms().forEach(room -> rooms.add(room(room)));
        return json;
    }

    private static ObjectNode room(NightReport.RoomNight night) {
        NightForecast forecast = night.forecast();
        ObjectNode json = Json.object();
        json.put("room", night.room());
        json.set("roughLowest", Json.number(forecast.rough(), 2));
        json.set("forecastLowest", Json.number(forecast.lowest(), 2));
        json.set("forecastDoubt", Json.number(forecast.doubt(), 2));
        json.put("clear", forecast.clear());
        json.set("forecastLeaf", Json.number(forecast.leaf(), 2));
        json.set("lowest", Json.number(forecast.came(), 2));
        json.put("nightsBefore", forecast.nightsBefore());
        return json;
    }

    private static ObjectNode probe(NightReport.ProbeNight night) {
        ObjectNode json = Json.object();
        json.put("probe", night.probe().id());
        json.put("measures", night.probe().measures().word());
        json.put("unit", night.probe().measures().unit());
        json.put("tray", night.tray());
        json.put("room", night.room());
        json.put("readings", night.readings());
        json.set("mean", Json.number(night.mean(), 3));
        json.set("lowest", Json.number(night.lowest(), 3));
        json.set("lowestAt", Json.time(night.lowestAt()));
        json.set("highest", Json.number(night.highest(), 3));
        json.set("highestAt", Json.time(night.highestAt()));
        json.set("below", beyond(night.below()));
        json.set("above", beyond(night.above()));
        json.set("dayNightDifference", Json.number(night.dayNightDifference(), 3));
        ArrayNode gaps = json.putArray("gaps");
        for (Gap gap : night.gaps()) {
            ObjectNode one = gaps.addObject();
            one.set("from", Json.time(gap.from()));
            one.set("to", Json.time(gap.to()));
        }
        json.set("gapHours", Json.number(hours(night.gapTime()), 2));
        json.set("degreeDays", warmth(night.degreeDays()));
        return json;
    }

    private static @Nullable ObjectNode beyond(@Nullable Beyond beyond) {
        if (beyond == null) {
            return null;
        }
        ObjectNode json = Json.object();
        json.set("limit", Json.number(beyond.limit(), 3));
        json.set("hours", Json.number(beyond.hours(), 2));
        json.set("unitHours", Json.number(beyond.unitHours(), 3));
        return json;
    }

    private static @Nullable ObjectNode warmth(NightReport.@Nullable Warmth warmth) {
        if (warmth == null) {
            return null;
        }
        ObjectNode json = Json.object();
        json.set("base", Json.number(warmth.baseC(), 2));
        json.set("average", Json.number(warmth.average(), 3));
        json.set("singleSine", Json.number(warmth.singleSine(), 3));
        return json;
    }

    private static double hours(Duration duration) {
        return duration.toSeconds() / SECONDS_PER_HOUR;
    }
}
