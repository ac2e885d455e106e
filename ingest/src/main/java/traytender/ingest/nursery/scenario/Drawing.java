package traytender.ingest.nursery.scenario;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import traytender.config.crop.Stage;
import traytender.config.site.Cells;
import traytender.config.site.Location;
import traytender.config.site.Zone;

/** Draws what every kind of scenario shares: place, season, trays, probes, limits. The spans are our choice. */
final class Drawing {
    private record Country(String zone, double latitude, double longitude) {}

    private static final List<Country> COUNTRIES = List.of(
            new Country("Europe/Dublin", 53.2, -6.5),
            new Country("Europe/Vienna", 48.1, 15.6),
            new Country("Europe/Lisbon", 40.6, -8.1),
            new Country("America/Halifax", 44.9, -63.6),
            new Country("Europe/Helsinki", 60.4, 24.1),
            new Country("America/Denver", 40.1, -105.1));
    private static final List<String> FIRST =
            List.of("Marsh", "Tallow", "Kestrel", "Bramble", "Orchard", "Quarry", "Heron", "Mill");
    private static final List<String> LAST = List.of("Lane Plants", "End Seedlings", "Hill Nursery", "Yard Plugs");
    private static final List<String> VARIETIES =
            List.of("Copper Lantern", "Long Meadow", "Paper Lark", "Slate Moon", "Brass Bell", "Green Ferry");
    private static final List<Zone> EDGES = List.of(Zone.EDGE_FRONT, Zone.EDGE_LEFT, Zone.EDGE_BACK, Zone.EDGE_RIGHT);
    private static final List<Zone> CORNERS =
            List.of(Zone.CORNER_BACK_RIGHT, Zone.CORNER_FRONT_LEFT, Zone.CORNER_FRONT_RIGHT, Zone.CORNER_BACK_LEFT);

    private Drawing() {}

    static Draft draw(ScenarioKind kind, long seed) {
        var draft = new Draft(kind, seed);
        Country country = draft.one(COUNTRIES);
        draft.site = draft.one(FIRST) + " " + draft.one(LAST);
        draft.zone = ZoneId.of(country.zone());
        draft.location = new Location(country.latitude(), country.longitude());
        draft.firstDay = LocalDate.of(2025, 4, 3).plusDays(draft.chance.nextInt(30));
        draft.firstHour = Math.rint(draft.between(4, 7));
        draft.days = longer(draft) ? 6 + draft.chance.nextInt(7) : 2 + draft.chance.nextInt(3);
        draft.minutes = draft.chance.nextInt(3) == 0 ? 1 : 5;
        draft.dayC = draft.between(18.5, 21);
        draft.nightC = draft.dayC - draft.between(2, 4);
        draft.humidity = draft.between(0.5, 0.66);
        draft.humidityProbe = draft.chance.nextInt(2) == 0;
        draft.matRiseK = draft.between(16, 22);
        draft.powerProbe = draft.chance.nextInt(4) > 0;
        Cells cells = draft.chance.nextInt(2) == 0 ? new Cells(8, 16) : new Cells(6, 12);
        for (int i = 1; i <= 2; i++) {
            draft.trays.add(tray(draft, "T0" + i, cells));
        }
        limits(draft);
        return draft;
    }

    private static boolean longer(Draft draft) {
        return draft.chance.nextInt(5) == 0;
    }

    private static DraftTray tray(Draft draft, String id, Cells cells) {
        var tray = new DraftTray(id, cells, draft.room);
        tray.crop = draft.one(List.of("tomato", "pepper", "cabbage"));
        tray.variety = draft.one(VARIETIES);
        tray.stage = Stage.SEEDLING;
        tray.evaporation = draft.between(0.003, 0.005);
        tray.canopy = draft.between(0.012, 0.02);
        tray.edgeFlow = draft.between(0.05, 0.14);
        tray.knee = draft.between(0.3, 0.45);
        tray.startWater = draft.between(0.7, 0.86);
        tray.waterHour = draft.between(7.2, 8.8);
        Zone edge = draft.one(EDGES);
        tray.moistureAt.add(Zone.CENTRE);
        tray.temperatureAt.add(Zone.CENTRE);
        tray.moistureAt.add(edge);
        tray.temperatureAt.add(edge);
        if (draft.chance.nextInt(3) > 0) {
            tray.moistureAt.add(draft.one(CORNERS));
        }
        if (draft.chance.nextInt(2) == 0) {
            tray.moistureAt.add(Zone.BETWEEN);
        }
        return tray;
    }

    private static void limits(Draft draft) {
        draft.limits.put("dry-line", "0.45");
        draft.limits.put("wet-line", "0.97");
        draft.limits.put("wet-hours", "72");
        draft.limits.put("uneven-ratio", "1.8");
        draft.limits.put("lasting-minutes", "10");
        draft.limits.put("clear-margin", "0.03");
        draft.limits.put("root-cold", "10");
        draft.limits.put("root-target", "[22, 29]");
        draft.limits.put("root-hot", "33");
        draft.limits.put("root-shut-off", "37");
        draft.limits.put("root-spread", "9");
        draft.limits.put("air-night-cold", "9");
        draft.limits.put("air-hot", "34");
        draft.limits.put("recovery-days", "3");
        draft.limits.put("feed-days", "7");
        draft.limits.put("harden-days", "7");
        draft.limits.put("soak-hours", "24");
        draft.limits.put("frost", "0");
        draft.limits.put("damp-air", "{humidity: 88, hours: 6}");
        draft.limits.put("dry-horizon-hours", "6");
    }

    /** Lays a mat under a tray of germinating seed. */
    static void onMat(Draft draft, DraftTray tray) {
        tray.mat = "mat-" + tray.id.charAt(2);
        tray.stage = Stage.GERMINATING;
        tray.canopy = 0;
    }

    /** Makes sure a zone has a moisture probe. */
    static void watch(DraftTray tray, Zone zone) {
        if (!tray.moistureAt.contains(zone)) {
            tray.moistureAt.add(zone);
        }
    }
}
