package traytender.config.folder;

import java.time.Duration;
import java.time.LocalTime;
import java.time.MonthDay;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.Node;
import traytender.config.site.Location;
import traytender.config.site.Mat;
import traytender.config.site.Messages;
import traytender.config.site.Probe;
import traytender.config.site.Room;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.StoreSettings;
import traytender.config.site.StoreSettings.Influx;
import traytender.config.site.Tray;

/** Reads {@code site.yaml} as a whole. Its parts note what they name and what they refer to in one {@link SiteNames}. */
final class SiteDocument {
    static final List<String> KEYS = List.of(
            "site",
            "timezone",
            "location",
            "show",
            "rooms",
            "mats",
            "trays",
            "probes",
            "messages",
            "store",
            "last-frost",
            "morning-round");

    /** Early enough that wilting is seen before the sun is on it: our choice. */
    static final LocalTime MORNING_ROUND = LocalTime.of(7, 0);

    private static final Duration SHORTEST_KEEP = Duration.ofDays(1);
    private static final Duration LONGEST_KEEP = Duration.ofDays(36_500);

    private SiteDocument() {}

    /** The site; null when an error was noted that leaves none. References are checked by {@link Problems#runChecks}. */
    static @Nullable Site read(Node root, String file, SiteNames names, Problems problems) {
        Keys keys = new Field(root, file, "the site", problems).keys(KEYS);
        if (keys == null) {
            return null;
        }
        String name = keys.need("site", Field::text);
        ZoneId zone = keys.need("timezone", Times::zone);
        ZoneId inZone = zone == null ? ZoneOffset.UTC : zone;
        var trayReading = new TrayReading(names, inZone);
        Location location = keys.may("location", SiteDocument::location);
        Show show = keys.or("show", Show.USUAL, SiteDocument::show);
        List<Room> rooms = keys.need("rooms", field -> rooms(field, names));
        List<Mat> mats = keys.list("mats", item -> RoomReading.mat(item.named("a mat"), names, inZone));
        List<Tray> trays = keys.list("trays", item -> trayReading.tray(item.named("a tray")));
        var probeReading = new ProbeReading(names, inZone);
        List<Probe> probes = keys.list("probes", item -> probeReading.probe(item.named("a probe")));
        Messages messages = keys.or("messages", MessagesReading.BUILT_IN, MessagesReading::messages);
        StoreSettings store = keys.or("store", new StoreSettings(null, null), SiteDocument::store);
        MonthDay lastFrost = keys.may("last-frost", Times::monthDay);
        LocalTime round = keys.or("morning-round", MORNING_ROUND, Times::timeOfDay);
        if (name == null || zone == null || rooms == null) {
            return null;
        }
        return new Site(name, zone, location, show, rooms, mats, trays, probes, messages, store, lastFrost, round);
    }

    private static List<Room> rooms(Field field, SiteNames names) {
        if (field.isList() && field.items().isEmpty()) {
            field.wrong("the site has no rooms", "give at least one room");
        }
        return field.list(item -> RoomReading.room(item.named("a room"), names));
    }

    private static @Nullable Location location(Field field) {
        Keys keys = field.keys(List.of("latitude", "longitude"));
        if (keys == null) {
            return null;
        }
        Double latitude = keys.need("latitude", value -> value.number(-90, 90, "degrees north"));
        Double longitude = keys.need("longitude", value -> value.number(-180, 180, "degrees east"));
        return latitude == null || longitude == null ? null : new Location(latitude, longitude);
    }

    private static @Nullable Show show(Field field) {
        Keys keys = field.keys(List.of("temperature", "clock"));
        if (keys == null) {
            return null;
        }
        String unit = keys.or("temperature", "C", value -> value.word(List.of("C", "F"), word -> word));
        String clock = keys.or("clock", "24", value -> value.word(List.of("24", "12"), word -> word));
        return new Show("F".equals(unit), "12".equals(clock));
    }

    private static @Nullable StoreSettings store(Field field) {
        Keys keys = field.keys(List.of("keep", "influxdb"));
        return keys == null
                ? null
                : new StoreSettings(
                        keys.may("keep", keep -> Times.duration(keep, SHORTEST_KEEP, LONGEST_KEEP, "P400D")),
                        keys.may("influxdb", SiteDocument::influx));
    }

    private static @Nullable Influx influx(Field field) {
        Keys keys = field.keys(List.of("url", "database", "user", "password-file", "token-file"));
        if (keys == null) {
            return null;
        }
        String url = keys.need("url", Addresses::web);
        String database = keys.need("database", Field::text);
        String user = keys.may("user", Field::text);
        String password = keys.may("password-file", Field::text);
        String token = keys.may("token-file", Field::text);
        if (password != null && user == null) {
            field.wrong("influxdb has a password-file but no user", "give the user too");
        }
        if (password != null && token != null) {
            field.wrong("influxdb has a password-file and a token-file", "keep one of them");
        }
        return url == null || database == null ? null : new Influx(url, database, user, password, token);
    }
}
