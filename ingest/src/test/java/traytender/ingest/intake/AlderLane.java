package traytender.ingest.intake;

import java.nio.file.Path;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.site.Binding;
import traytender.config.site.Broker;
import traytender.config.site.Mat;
import traytender.config.site.Messages;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Relay;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.StoreSettings;
import traytender.ingest.store.Bench;

/** The site that the tests of this package take messages in for. */
final class AlderLane {
    static final Probe SOIL = Bench.probe(
            "centre-moisture", Quantity.MOISTURE, new Binding.Json("alder/T01/centre", "/soil", "/at", Map.of()));
    static final Probe TEMPERATURE = Bench.probe(
            "centre-temperature", Quantity.TEMPERATURE, new Binding.Json("alder/T01/centre", "/temp", "/at", Map.of()));
    static final Probe EDGE = Bench.probe("edge", Quantity.MOISTURE, new Binding.Text("alder/T01/edge", Map.of()));
    static final Probe AIR =
            Bench.probe("air", Quantity.AIR_TEMPERATURE, new Binding.SenMl("alder/propagation", "alder:air:temp"));
    static final Probe ODD =
            Bench.probe("odd", Quantity.AIR_TEMPERATURE, new Binding.Text("alder/Gewächshaus 2/ü.*?", Map.of()));
    static final Probe MAT = Bench.probe(
            "mat-1-power",
            Quantity.MAT_POWER,
            new Binding.Text("alder/mat-1/report", Map.of("heat", 1.0, "rest", 0.0)));

    private AlderLane() {}

    static SiteFolder at(Path folder, String uri) {
        return at(folder, new Broker.Outside(uri, null, null, null));
    }

    static SiteFolder at(Path folder, Broker broker) {
        var site = new Site(
                "Alder Lane Nursery",
                ZoneId.of("Europe/Dublin"),
                null,
                Show.USUAL,
                List.of(new Room("propagation", RoomKind.INDOORS, null)),
                List.of(new Mat("mat-1", "propagation", false, new Relay("alder/mat-1/relay", "rest"))),
                List.of(),
                List.of(SOIL, TEMPERATURE, EDGE, AIR, ODD, MAT),
                new Messages(broker, "traytender"),
                new StoreSettings(null, null),
                null,
                LocalTime.of(7, 0));
        return new SiteFolder(folder, site, new Crops(Map.of()));
    }
}
