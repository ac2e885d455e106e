package traytender.ingest.nursery.scenario;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import traytender.config.site.Cells;
import traytender.config.site.LampHours;
import traytender.config.site.Location;
import traytender.config.site.RoomKind;
import traytender.config.site.Zone;
import traytender.ingest.nursery.world.TrayTraits;

/** Draws what every kind of scenario shares: place, season, trays, physics, probes, limits. The spans are our choice. */
final class Drawing {
    private record Country(String zone, double latitude, double longitude) {}

    private static final List<Country> COUNTRIES = List.of(
            new Country("Europe/Dublin", 53.2, -6.5),
            new Country("Europe/Vienna", 48.1, 15.6),
            new Country("Europe/Lisbon", 40.6, -8.1),
            new Country("Europe/Oslo", 59.8, 10.6),
            new Country("America/Halifax", 44.9, -63.6),
            new Country("Europe/Helsinki", 60.4, 24.1),
            new Country("America/Denver", 40.1, -105.1));
    private static final List<String> FIRST =
            List.of("Marsh", "Tallow", "Kestrel", "Bramble", "Orchard", "Quarry", "Heron", "Mill");
    private static final List<String> LAST = List.of("Lane Plants", "End Seedlings", "Hill Nursery", "Yard Plugs");
    private static final List<String> VARIETIES =
            List.of("Copper Lantern", "Long Meadow", "Paper Lark", "Slate Moon", "Brass Bell", "Green Ferry");
    private static final List<Zone> EDGES = List.of(Zone.EDGE_FRONT, Zone.EDGE_LEFT, Zone.EDGE_BACK, Zone.EDGE_RIGHT);
    private static final List<Zone> ELSEWHERE = List.of(
            Zone.BETWEEN,
            Zone.CORNER_BACK_RIGHT,
            Zone.CORNER_FRONT_LEFT,
            Zone.CORNER_FRONT_RIGHT,
            Zone.CORNER_BACK_LEFT,
            Zone.EDGE_FRONT,
            Zone.EDGE_LEFT);

    private Drawing() {}

    static Draft draw(ScenarioKind kind, long seed) {
        var draft = new Draft(kind, seed);
        Country country = draft.one(COUNTRIES);
        draft.site = draft.one(FIRST) + " " + draft.one(LAST);
        draft.zone = ZoneId.of(country.zone());
        draft.location = new Location(country.latitude(), country.longitude());
        draft.firstDay = LocalDate.of(2025, 4, 3).plusDays(draft.chance.nextInt(40));
        draft.firstHour = Math.rint(draft.between(3, 8));
        draft.days = draft.chance.nextInt(6) == 0 ? 6 + draft.chance.nextInt(9) : 2 + draft.chance.nextInt(4);
        draft.minutes = draft.chance.nextInt(3) == 0 && draft.days < 6 ? 1 : 5;
        draft.forgets = draft.chance.nextInt(5) == 0 ? 0.4 : 0;
        room(draft);
        mats(draft);
        Cells cells = draft.chance.nextInt(2) == 0 ? new Cells(8, 16) : new Cells(6, 12);
        for (int i = 1; i <= 2; i++) {
            draft.trays.add(tray(draft, "T0" + i, cells));
        }
        limits(draft);
        return draft;
    }

    private static void room(Draft draft) {
        draft.dayC = draft.between(18.5, 22);
        draft.nightC = draft.dayC - draft.between(1.5, 5);
        draft.humidity = draft.between(0.5, 0.66);
        draft.humidityProbe = draft.chance.nextInt(2) == 0;
        draft.meanC = draft.between(7, 11);
        draft.swingK = draft.between(3, 6);
        int light = draft.chance.nextInt(4);
        if (light == 0) {
            int on = 5 + draft.chance.nextInt(3);
            draft.lightProbe = draft.chance.nextInt(2) == 0;
            draft.lamps = new LampHours(LocalTime.of(on, 0), LocalTime.of(on + 14 + draft.chance.nextInt(3), 0));
        } else if (light == 1) {
            draft.roomKind = RoomKind.GREENHOUSE;
        }
    }

    private static void mats(Draft draft) {
        draft.matRiseK = draft.between(16, 22);
        draft.matBandK = draft.between(0.8, 2.2);
        draft.matTauMinutes = draft.between(15, 45);
        draft.powerProbe = draft.chance.nextInt(4) > 0;
    }

    private static DraftTray tray(Draft draft, String id, Cells cells) {
        var tray = new DraftTray(id, cells, draft.room, draft.chance);
        tray.crop = draft.one(List.of("tomato", "pepper", "cabbage"));
        tray.variety = draft.one(VARIETIES);
        tray.evaporation = draft.between(0.002, 0.005);
        tray.canopy = draft.between(0.009, 0.02);
        tray.edgeFlow = draft.between(0.03, 0.16);
        tray.knee = draft.between(0.25, 0.6);
        tray.startWater = draft.between(0.72, 0.88);
        tray.waterHour = draft.between(7, 9.5);
        tray.fromBelow = draft.chance.nextInt(5) == 0;
        tray.rimWarmth = draft.between(0.25, 0.45);
        tray.matBack = draft.between(-0.7, 0.7);
        tray.matRight = draft.between(-1.5, 1.5);
        tray.matReach = draft.between(0.85, 1.2);
        tray.habit = habit(draft);
        probes(draft, tray);
        return tray;
    }

    private static TrayTraits.Habit habit(Draft draft) {
        return new TrayTraits.Habit(
                draft.between(0.7, 1.5),
                draft.chance.nextInt(2) == 0 ? 0 : draft.between(0, 0.8),
                draft.chance.nextInt(2) == 0 ? 0 : draft.between(0, 0.08),
                draft.chance.nextInt(4) == 0 ? draft.between(0.05, 0.2) : 0,
                draft.between(0.7, 1.6));
    }

    /** Three to nine probes: centre and one edge always, the others anywhere. */
    private static void probes(Draft draft, DraftTray tray) {
        Zone edge = draft.one(EDGES);
        tray.moistureAt.addAll(List.of(Zone.CENTRE, edge));
        tray.temperatureAt.add(Zone.CENTRE);
        if (draft.chance.nextInt(5) > 0) {
            tray.temperatureAt.add(edge);
        }
        var rest = new ArrayList<>(ELSEWHERE);
        int more = draft.chance.nextInt(6);
        while (more > 0) {
            Zone zone = rest.remove(draft.chance.nextInt(rest.size()));
            tray.watch(zone);
            more--;
            if (more > 0 && draft.chance.nextInt(3) == 0) {
                tray.watchHeat(zone);
                more--;
            }
        }
    }

    private static void limits(Draft draft) {
        draft.limit("dry-line", draft.between(0.38, 0.5));
        draft.limit("wet-line", draft.between(0.95, 0.98));
        draft.limit("wet-hours", Math.rint(draft.between(48, 84)));
        draft.limit("uneven-ratio", draft.between(1.7, 2.1));
        draft.limit("lasting-minutes", draft.one(List.of(10.0, 10.0, 15.0, 30.0)));
        draft.limit("clear-margin", draft.between(0.02, 0.04));
        draft.limit("root-cold", draft.between(8, 11));
        draft.limits.put("root-target", "[22, 29]");
        draft.limit("root-hot", draft.between(31, 34));
        draft.limit("root-shut-off", draft.between(35, 38));
        draft.limit("root-spread", draft.between(8, 10));
        draft.limit("air-night-cold", draft.between(8, 10));
        draft.limit("air-hot", draft.between(33, 36));
        draft.limits.put("recovery-days", "3");
        draft.limits.put("feed-days", "7");
        draft.limits.put("harden-days", "7");
        draft.limits.put("soak-hours", "24");
        draft.limits.put("frost", "0");
        draft.limits.put("damp-air", "{humidity: 88, hours: 6}");
        draft.limits.put("dry-horizon-hours", "6");
    }
}
