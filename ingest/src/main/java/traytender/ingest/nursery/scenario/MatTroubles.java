package traytender.ingest.nursery.scenario;

import java.time.Instant;
import java.util.Map;
import traytender.config.journal.EntryKind;
import traytender.config.site.Zone;

/** Mats that heat too much, too little or too long. All numbers are our choice. */
final class MatTroubles {
    private MatTroubles() {}

    /** Both trays on a mat each, and when something happens. */
    private static Instant mats(Draft draft) {
        draft.trays.forEach(tray -> {
            tray.onMat();
            tray.waterEvery = 2;
        });
        draft.matSetC = draft.between(24, 26);
        draft.limit("root-spread", 14);
        return draft.at(0, draft.firstHour + draft.between(6, 24));
    }

    private static void tooHot(Draft draft) {
        draft.matRiseK = draft.between(26, 34);
        draft.limit("root-hot", draft.between(29.5, 31));
        draft.limit("root-shut-off", draft.between(32.5, 34));
        draft.days = Math.min(draft.days, 3);
    }

    static void stuckOn(Draft draft) {
        Instant at = mats(draft);
        tooHot(draft);
        draft.happens(at, world -> world.mat("mat-1").thermostat(false));
    }

    static void notStopping(Draft draft) {
        Instant at = mats(draft);
        tooHot(draft);
        draft.powerProbe = true;
        draft.happens(at, world -> world.mat("mat-1").welded(true));
        draft.happens(at, world -> world.mat("mat-1").switchedOn(false));
        draft.write(at, "T01", EntryKind.MAT_OFF, Map.of());
    }

    static void dead(Draft draft) {
        Instant at = mats(draft);
        draft.limit("root-cold", draft.between(18.5, 20));
        draft.dayC = Math.min(draft.dayC, 19);
        draft.nightC = Math.min(draft.nightC, 16);
        draft.happens(at, world -> world.mat("mat-1").broken(true));
    }

    static void unevenHeat(Draft draft) {
        mats(draft);
        draft.tray(0).rimWarmth = 0.05;
        draft.tray(0).matReach = 0.9;
        draft.tray(0).watchHeat(draft.tray(0).edge());
        draft.tray(1).rimWarmth = 0.9;
        draft.matRiseK = 26;
        draft.matSetC = 28;
        draft.dayC = 17;
        draft.nightC = 15;
        draft.limit("root-spread", draft.between(3.5, 5));
        draft.limit("root-hot", 35);
        draft.limit("root-cold", 12);
    }

    /** Two trays side by side on one mat, whose thermostat fails: their shared border is hottest. */
    static void shared(Draft draft) {
        Instant at = mats(draft);
        tooHot(draft);
        DraftTray left = draft.tray(0);
        DraftTray right = draft.tray(1);
        right.mat = left.mat;
        double half = left.cells.columns() / 2.0;
        left.matRight = half;
        right.matRight = -half;
        left.matReach = 1.6;
        right.matReach = 1.6;
        left.watchHeat(Zone.EDGE_RIGHT);
        right.watchHeat(Zone.EDGE_LEFT);
        draft.happens(at, world -> world.mat("mat-1").thermostat(false));
    }

    static void emerged(Draft draft) {
        Instant at = mats(draft);
        draft.write(at, "T01", EntryKind.EMERGED, Map.of("percent", "80"));
    }

    static void noProbe(Draft draft) {
        mats(draft);
        draft.tray(0).temperatureAt.clear();
    }
}
