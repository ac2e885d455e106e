package traytender.ingest.store;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import traytender.config.crop.Stage;
import traytender.config.reading.Reading;
import traytender.config.site.Binding;
import traytender.config.site.Broker;
import traytender.config.site.Calibration;
import traytender.config.site.Cells;
import traytender.config.site.Dated;
import traytender.config.site.Messages;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.StoreSettings;
import traytender.config.site.Tray;

/** A small site for tests, and a meaning that is easy to check: the value is the raw value doubled. */
public final class Bench {
    /** The value is twice the raw value. */
    public static final Meaning DOUBLED =
            (probe, raw) -> new Reading(raw.probe(), raw.timeMs(), 2 * raw.raw(), raw.raw(), raw.marks());

    private Bench() {}

    /** A site with one room whose air is measured by probes of these ids. */
    public static Site site(String... probes) {
        return site(Stream.of(probes).map(Bench::probe).toArray(Probe[]::new));
    }

    /** A site with one room, one tray on its bench, and no probes. */
    public static Site siteWithTray(String tray) {
        return site(
                List.of(new Tray(
                        tray,
                        "propagation",
                        null,
                        null,
                        new Cells(8, 16),
                        "peat-perlite",
                        Stage.GERMINATING,
                        List.of(),
                        Instant.MIN)),
                List.of());
    }

    /** A site with one room and these probes. */
    public static Site site(Probe... probes) {
        return site(List.of(), List.of(probes));
    }

    /** The same site with other store settings. */
    public static Site withStore(Site site, StoreSettings store) {
        return new Site(
                site.name(),
                site.timezone(),
                site.location(),
                site.show(),
                site.rooms(),
                site.mats(),
                site.trays(),
                site.probes(),
                site.messages(),
                store,
                site.lastFrost(),
                site.morningRound());
    }

    private static Site site(List<Tray> trays, List<Probe> probes) {
        return new Site(
                "Alder Lane Nursery",
                ZoneId.of("Europe/Dublin"),
                null,
                Show.USUAL,
                List.of(new Room("propagation", RoomKind.INDOORS, null)),
                List.of(),
                trays,
                probes,
                new Messages(new Broker.BuiltIn("127.0.0.1", 1883), "traytender"),
                new StoreSettings(null, null),
                null,
                LocalTime.of(7, 0));
    }

    /** An air probe without a calibration, in text. */
    public static Probe probe(String id) {
        return probe(id, Quantity.AIR_TEMPERATURE, new Binding.Text("alder/" + id, Map.of()));
    }

    /** A probe in the room, without a calibration. */
    public static Probe probe(String id, Quantity quantity, Binding binding) {
        return new Probe(
                id,
                quantity,
                Dated.always(new Place.InRoom("propagation")),
                binding,
                Dated.always(new Calibration.None()),
                null);
    }
}
