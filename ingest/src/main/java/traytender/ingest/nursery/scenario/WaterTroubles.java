package traytender.ingest.nursery.scenario;

import java.util.Set;
import traytender.config.crop.Stage;
import traytender.config.site.Zone;
import traytender.ingest.nursery.world.TrayTraits;

/** Benches that dry, are watered badly or stay wet. All numbers are our choice. */
final class WaterTroubles {
    private WaterTroubles() {}

    static void warmCentre(Draft draft) {
        DraftTray first = draft.tray(0);
        first.onMat();
        first.stage = Stage.SEEDLING;
        first.canopy = draft.between(0.006, 0.014);
        first.edgeFlow = 0.03;
        draft.matSetC = draft.between(24, 27);
        wateredLastOn(draft, 1);
    }

    static void dryEdges(Draft draft) {
        DraftTray first = draft.tray(0);
        first.canopy = draft.between(0.014, 0.022);
        first.edgeFlow = draft.between(0.25, 0.5);
        wateredLastOn(draft, 1);
    }

    /** Nobody waters the first tray after that day. */
    static void wateredLastOn(Draft draft, int day) {
        DraftTray first = draft.tray(0);
        draft.days = Math.max(4, Math.min(draft.days, 6));
        first.waterEvery = 0;
        draft.waters(first, draft.at(day, first.waterHour), Set.of());
    }

    static void overMat(Draft draft) {
        DraftTray first = draft.tray(0);
        first.onMat();
        first.edgeFlow = 0.02;
        first.rimWarmth = draft.between(0.05, 0.15);
        first.evaporation = draft.between(0.005, 0.008);
        first.watch(Zone.CORNER_BACK_RIGHT);
        draft.matSetC = draft.between(27, 29);
        draft.matRiseK = 24;
        draft.limit("uneven-ratio", draft.between(1.35, 1.5));
        draft.limit("root-spread", 14);
        draft.limit("root-hot", 34);
        draft.days = 4 + draft.chance.nextInt(4);
        first.waterEvery = 2;
    }

    static void missedCorner(Draft draft) {
        missed(draft, Zone.CORNER_BACK_RIGHT);
    }

    static void missedEdge(Draft draft) {
        missed(draft, draft.tray(0).edge());
    }

    private static void missed(Draft draft, Zone zone) {
        DraftTray first = draft.tray(0);
        first.watch(zone);
        first.startWater = draft.between(0.74, 0.84);
        draft.days = 3 + draft.chance.nextInt(3);
        draft.watersEachDay(first, 1, Set.of(1, 2), Set.of(zone));
    }

    static void overwatered(Draft draft) {
        DraftTray first = draft.tray(0);
        draft.dayC = draft.between(15.5, 17);
        draft.nightC = 14;
        draft.humidity = 0.78;
        first.canopy = 0.003;
        first.evaporation = 0.002;
        first.habit = TrayTraits.Habit.PLAIN;
        draft.limit("wet-line", draft.between(0.86, 0.9));
        draft.limit("wet-hours", 24 + 12 * draft.chance.nextInt(2));
        draft.days = 4 + draft.chance.nextInt(3);
        first.startWater = 0.6;
        first.waterEvery = 0;
        for (int day = 0; day <= draft.days; day++) {
            if (draft.at(day, 8.5).isBefore(draft.end())) {
                draft.waters(first, draft.at(day, 8.5), Set.of());
                draft.waters(first, draft.at(day, 18.5), Set.of());
            }
        }
    }

    /** Two crops in one tray, the back half a stage on and with a higher dry line of its own. */
    static void twoCrops(Draft draft) {
        DraftTray first = draft.tray(0);
        first.crop = "tomato";
        first.cropBehind = "lettuce";
        first.watch(Zone.EDGE_BACK);
        first.watch(Zone.EDGE_FRONT);
        draft.limitsBehind.put("dry-line", Draft.text(draft.between(0.5, 0.56)));
        draft.grownLimits.put("dry-line", Draft.text(draft.between(0.56, 0.62)));
        first.canopy = draft.between(0.014, 0.022);
        wateredLastOn(draft, 1);
    }

    /** Plugs grown too big for their cells: watered each morning, dry before the next. */
    static void outgrown(Draft draft) {
        DraftTray first = draft.tray(0);
        draft.days = Math.max(4, draft.days);
        // Cabbage goes out straight from its plugs: nobody would pot it up.
        first.crop = first.crop.equals("cabbage") ? "tomato" : first.crop;
        first.canopy = draft.between(0.06, 0.09);
        first.evaporation = 0.006;
        draft.watersEachDay(first, 0, Set.of(), Set.of());
    }
}
