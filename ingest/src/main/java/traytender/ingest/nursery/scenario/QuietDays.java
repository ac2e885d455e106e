package traytender.ingest.nursery.scenario;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import traytender.config.site.Location;
import traytender.config.site.RoomKind;
import traytender.ingest.nursery.world.TrayTraits;

/** Benches on which nothing is wrong, though a naive program would cry. All numbers are our choice. */
final class QuietDays {
    private QuietDays() {}

    static void normal(Draft draft) {
        draft.days = Math.max(3, draft.days);
    }

    static void fortnight(Draft draft) {
        draft.days = 10 + draft.chance.nextInt(5);
        draft.minutes = 5;
    }

    static void greenhouse(Draft draft) {
        draft.roomKind = RoomKind.GREENHOUSE;
        draft.lamps = null;
        draft.days = Math.max(4, draft.days);
    }

    static void thermostat(Draft draft) {
        draft.roomKind = RoomKind.INDOORS;
        draft.trays.forEach(tray -> {
            tray.onMat();
            tray.waterEvery = 2;
        });
        draft.matBandK = draft.between(1, 3);
        draft.limit("root-spread", 10);
        draft.limit("root-cold", draft.between(14, 16));
    }

    /** Moisture that lingers a little above the dry line. */
    static void atTheLine(Draft draft) {
        double line = Double.parseDouble(draft.limits.getOrDefault("dry-line", "0.45"));
        draft.days = 3;
        draft.trays.forEach(tray -> {
            resting(tray, 0.0004);
            tray.startWater = line + draft.between(0.06, 0.08);
        });
    }

    /** Counts that follow the day's warmth. */
    static void crosstalk(Draft draft) {
        draft.roomKind = RoomKind.INDOORS;
        draft.instruments = draft.instruments.feeling(draft.between(0.003, 0.005));
        draft.dayC = draft.between(25, 28);
        draft.nightC = draft.between(13, 15);
        draft.days = Math.min(5, Math.max(3, draft.days));
        draft.trays.forEach(tray -> {
            resting(tray, 0.0002);
            tray.startWater = draft.between(0.7, 0.8);
        });
    }

    private static void resting(DraftTray tray, double evaporation) {
        tray.evaporation = evaporation;
        tray.canopy = 0;
        tray.waterEvery = 0;
        tray.habit = TrayTraits.Habit.PLAIN;
    }

    static void door(Draft draft) {
        draft.meanC = 3;
        Instant at = draft.at(1, draft.between(7, 23));
        draft.happens(at, world -> world.room(draft.room).door(true));
        draft.happens(at.plusSeconds(180), world -> world.room(draft.room).door(false));
    }

    static void summerTime(Draft draft) {
        boolean west = draft.chance.nextInt(3) == 0;
        draft.zone = ZoneId.of(west ? "America/Halifax" : "Europe/Vienna");
        draft.location = west ? new Location(44.9, -63.6) : new Location(48.1, 15.6);
        boolean spring = draft.chance.nextInt(2) == 0;
        LocalDate spell = spring ? LocalDate.of(2025, 3, west ? 7 : 28) : LocalDate.of(2025, 10, west ? 31 : 24);
        draft.firstDay = spell;
        draft.days = 4;
    }
}
