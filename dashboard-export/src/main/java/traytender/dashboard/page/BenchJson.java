package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Duration;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Cells;
import traytender.config.site.LampHours;
import traytender.config.site.Mat;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Room;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.dashboard.record.Json;
import traytender.rules.view.HeatView;
import traytender.rules.view.MatView;
import traytender.rules.view.NightView;
import traytender.rules.view.ProbeView;
import traytender.rules.view.RoomView;
import traytender.rules.view.TrayView;

/** What stands and lies around the trays, and what came in, as JSON. */
final class BenchJson {
    private final BenchFacts facts;

    BenchJson(BenchFacts facts) {
        this.facts = facts;
    }

    ObjectNode site() {
        ObjectNode json = Json.object();
        json.put("name", facts.site().name());
        json.put("timezone", facts.site().timezone().getId());
        json.put("temperature", facts.site().show().fahrenheit() ? "F" : "C");
        json.put("clock", facts.site().show().twelveHours() ? 12 : 24);
        json.put("morningRound", facts.site().morningRound().toString());
        json.set("now", Json.time(facts.now()));
        return json;
    }

    ArrayNode rooms() {
        ArrayNode rooms = Json.array();
        for (RoomView view : facts.rooms()) {
            ObjectNode json = rooms.addObject();
            json.put("id", view.id());
            json.put(
                    "kind",
                    facts.site().room(view.id()).map(room -> room.kind().word()).orElse(null));
            json.set("airTemperature", Json.number(view.airTemperature(), 2));
            json.set("humidity", Json.number(view.humidity(), 1));
            json.set("lit", Json.number(view.lit(), 2));
            json.set("deficit", Json.number(view.deficit(), 3));
            json.set("night", night(view.night()));
            json.put(
                    "lampHours",
                    facts.site().room(view.id()).map(BenchJson::lampHours).orElse(null));
            json.set("trays", trays(tray -> tray.room().equals(view.id())));
            json.set("probes", probes(place -> place.equals(new Place.InRoom(view.id()))));
        }
        return rooms;
    }

    private static @Nullable ObjectNode night(@Nullable NightView night) {
        if (night == null) {
            return null;
        }
        ObjectNode json = Json.object();
        json.set("lowest", Json.number(night.lowest(), 2));
        json.set("doubt", Json.number(night.doubt(), 2));
        json.put("rough", night.rough());
        json.set("leaf", Json.number(night.leaf(), 2));
        json.set("sunrise", Json.time(night.sunrise()));
        json.set("coldBelow", Json.number(night.coldBelow(), 2));
        json.set("frost", Json.number(night.frost(), 2));
        return json;
    }

    private static @Nullable String lampHours(Room room) {
        LampHours hours = room.light();
        return hours == null ? null : hours.on() + "-" + hours.off();
    }

    ArrayNode mats() {
        ArrayNode mats = Json.array();
        for (MatView view : facts.mats()) {
            ObjectNode json = mats.addObject();
            json.put("id", view.id());
            json.put("room", facts.site().mat(view.id()).map(Mat::room).orElse(null));
            json.put("state", view.state().word());
            json.put("inferred", view.inferred());
            json.set("heat", heat(view.heat()));
            json.put(
                    "ownThermostat",
                    facts.site().mat(view.id()).map(Mat::ownThermostat).orElse(false));
            json.put("relay", facts.site().mat(view.id()).map(Mat::relay).isPresent());
            json.set("told", told(view.id()));
            json.set("trays", trays(tray -> view.id().equals(tray.mat())));
            json.set("probes", probes(place -> place.equals(new Place.AtMat(view.id()))));
        }
        return mats;
    }

    /** On whose account and when a mat was told to rest, as long as that stands; null while it does not. */
    private @Nullable ObjectNode told(String mat) {
        Set<String> trays = facts.trays().stream()
                .filter(tray -> mat.equals(tray.mat()))
                .map(TrayView::id)
                .collect(Collectors.toSet());
        return MatRest.standing(facts.journal(), trays)
                .map(entry -> {
                    ObjectNode json = Json.object();
                    json.set("at", Json.time(entry.time()));
                    json.put("tray", entry.tray());
                    json.put("why", entry.note());
                    return json;
                })
                .orElse(null);
    }

    private static @Nullable ObjectNode heat(@Nullable HeatView heat) {
        return heat == null
                ? null
                : Json.object()
                        .put("gain", heat.gainK())
                        .put("timeConstantHours", heat.timeConstantHours())
                        .put("restOverAir", heat.restOverAirK());
    }

    private ArrayNode trays(Predicate<TrayView> choice) {
        return Json.words(
                facts.trays().stream().filter(choice).map(TrayView::id).toList());
    }

    private ArrayNode probes(Predicate<Place> choice) {
        return Json.words(facts.site().probes().stream()
                .filter(probe -> choice.test(probe.at().last()))
                .map(Probe::id)
                .toList());
    }

    ArrayNode probes() {
        ArrayNode probes = Json.array();
        for (ProbeView view : facts.probes()) {
            Probe probe = view.probe();
            ObjectNode json = probes.addObject();
            json.put("id", probe.id());
            json.put("measures", probe.measures().word());
            json.put("unit", ReadingsJson.unit(probe));
            json.set("at", place(probe.at().last()));
            json.put("topic", probe.binding().topic());
            Duration every = probe.every();
            json.put("every", every == null ? null : every.toString());
            json.put("health", view.health().word());
            Reading last = view.last();
            json.set("last", last == null ? null : reading(last));
            json.set("offeredWet", Json.number(view.offeredWet(), 0));
        }
        return probes;
    }

    private static ObjectNode reading(Reading reading) {
        ObjectNode json = Json.object();
        json.set("time", Json.time(reading.time()));
        json.set("value", Json.number(reading.value(), 4));
        json.set("raw", Json.number(reading.raw(), 4));
        json.set("marks", Json.words(Marks.words(reading.marks())));
        return json;
    }

    private ObjectNode place(Place place) {
        ObjectNode json = Json.object();
        if (place instanceof Place.InCell in) {
            json.put("tray", in.tray());
            json.put("row", in.cell().row());
            json.put("column", in.cell().column());
            Cells cells = facts.site().tray(in.tray()).map(Tray::cells).orElse(null);
            json.put("zone", cells == null ? null : Zone.of(in.cell(), cells).word());
            return json;
        }
        if (place instanceof Place.AtTray at) {
            return json.put("tray", at.tray());
        }
        if (place instanceof Place.AtMat at) {
            return json.put("mat", at.mat());
        }
        if (place instanceof Place.InRoom in) {
            return json.put("room", in.room());
        }
        throw new IllegalStateException("a place of a kind the page does not know: " + place);
    }

    ObjectNode counts() {
        BenchFacts.MessageCounts counts = facts.counts();
        ObjectNode json = Json.object();
        json.put("received", counts.received());
        json.put("stored", counts.stored());
        json.put("repeated", counts.repeated());
        json.put("refused", counts.refused());
        json.put("unassigned", counts.unassigned());
        ObjectNode refusals = json.putObject("refusals");
        new TreeMap<>(counts.refusals()).forEach(refusals::put);
        return json;
    }

    ArrayNode refusals() {
        ArrayNode refusals = Json.array();
        for (BenchFacts.Refusal refusal : facts.refusals()) {
            ObjectNode json = refusals.addObject();
            json.put("cause", refusal.cause());
            json.put("topic", refusal.topic());
            json.put("count", refusal.count());
            json.put("firstBytes", refusal.firstBytes());
            json.set("last", Json.time(refusal.last()));
        }
        return refusals;
    }

    ArrayNode unassigned() {
        ArrayNode topics = Json.array();
        for (BenchFacts.UnassignedTopic topic : facts.unassigned()) {
            ObjectNode json = topics.addObject();
            json.put("topic", topic.topic());
            json.put("payload", topic.payload());
            json.put("count", topic.count());
            json.set("last", Json.time(topic.last()));
        }
        return topics;
    }
}
