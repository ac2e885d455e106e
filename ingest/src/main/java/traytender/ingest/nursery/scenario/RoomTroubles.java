package traytender.ingest.nursery.scenario;

import java.time.Instant;
import java.time.LocalTime;
import java.util.Map;
import java.util.Set;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.site.LampHours;
import traytender.config.site.RoomKind;

/** Rooms too cold, hot, damp or dark, nights in the frame, and what the calendar forbids. All numbers are our choice. */
final class RoomTroubles {
    private RoomTroubles() {}

    private static void heaterFails(Draft draft, double untilHour) {
        draft.roomKind = RoomKind.INDOORS;
        draft.happens(
                draft.at(1, draft.between(18, 22)),
                world -> world.room(draft.room).heater(false));
        draft.happens(draft.at(2, untilHour), world -> world.room(draft.room).heater(true));
        draft.days = Math.max(3, draft.days);
    }

    static void coldNight(Draft draft) {
        draft.meanC = draft.between(1, 4);
        draft.limit("root-cold", -5);
        heaterFails(draft, 6.5);
    }

    static void coldRoots(Draft draft) {
        draft.meanC = draft.between(2, 4);
        draft.limit("root-cold", 12);
        draft.limit("air-night-cold", -5);
        heaterFails(draft, 10);
    }

    static void hotAir(Draft draft) {
        draft.limit("air-hot", draft.between(28, 31));
        draft.happens(draft.at(1, 11), world -> world.room(draft.room).warmer(16));
        draft.happens(draft.at(1, 15.5), world -> world.room(draft.room).warmer(0));
    }

    static void dampAir(Draft draft) {
        draft.humidityProbe = true;
        draft.days = Math.max(4, draft.days);
        draft.happens(draft.at(1, 9), world -> world.room(draft.room).damper(0.6));
        draft.happens(draft.at(2, 12), world -> world.room(draft.room).damper(0));
    }

    static void lightOut(Draft draft) {
        draft.roomKind = RoomKind.INDOORS;
        draft.lamps = new LampHours(LocalTime.of(6, 0), LocalTime.of(22, 0));
        draft.lightProbe = true;
        double from = draft.between(7, 14);
        draft.happens(draft.at(1, from), world -> world.room(draft.room).lamps(false));
        draft.happens(draft.at(1, from + 6), world -> world.room(draft.room).lamps(true));
    }

    static void clearNight(Draft draft) {
        frame(draft, draft.between(8, 10));
    }

    static void mildNight(Draft draft) {
        frame(draft, 3);
        draft.meanC = 16;
        draft.limit("air-hot", 40);
    }

    private static void frame(Draft draft, double depth) {
        draft.roomKind = RoomKind.OUTDOORS;
        draft.room = "cold-frame";
        draft.lamps = null;
        draft.humidityProbe = true;
        draft.meanC = 8.5;
        draft.swingK = 3.5;
        // Dry air: a damp night is another kind's matter.
        draft.dampness = 0.5;
        draft.days = 4;
        draft.clearNights.put(draft.firstDay.plusDays(1), depth);
        draft.limit("root-cold", -8);
        draft.limit("air-night-cold", -10);
        draft.trays.forEach(tray -> {
            tray.room = draft.room;
            tray.stage = Stage.HARDENING;
            tray.crop = "cabbage";
        });
    }

    static void fedTooSoon(Draft draft) {
        pottedUp(draft);
        draft.write(draft.at(1, 15), "T01", EntryKind.FED, Map.of());
        draft.days = Math.max(3, draft.days);
    }

    static void movedTooSoon(Draft draft) {
        pottedUp(draft);
        draft.glasshouse = true;
        Instant at = draft.at(1, draft.between(10, 16));
        draft.write(at, "T01", EntryKind.MOVED, Map.of("to", Draft.GLASSHOUSE));
        draft.happens(at, world -> world.tray("T01").moveTo(Draft.GLASSHOUSE));
        draft.days = Math.max(3, draft.days);
    }

    /** Fresh medium on the first morning, watered soon after and then daily. */
    static void pottedUp(Draft draft) {
        DraftTray first = draft.tray(0);
        first.stage = Stage.SEEDLING;
        Instant at = draft.at(0, 9.5);
        draft.write(at, "T01", EntryKind.POTTED_UP, Map.of());
        draft.happens(at, world -> world.tray("T01").refill(0.55));
        draft.waters(first, at.plusSeconds(900), Set.of());
        draft.watersEachDay(first, 1, Set.of(), Set.of());
    }

    /** Hardened for some days in mild weather; the crop's weeks come while one watches. */
    static void plantOut(Draft draft) {
        frame(draft, 1);
        draft.meanC = draft.between(13, 15);
        draft.limit("harden-days", 3);
        draft.days = 5;
        draft.lastFrost = draft.firstDay.minusDays(60);
        draft.write(draft.start(), "T01", EntryKind.HARDENING, Map.of());
    }
}
