package traytender.ingest.nursery.scenario;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Set;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.site.LampHours;
import traytender.config.site.Location;
import traytender.config.site.RoomKind;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.ProbeFault;
import traytender.ingest.nursery.probe.ProbeFault.Kind;

/** Makes a drawn bench into one of a kind: what is grown, what is done, what goes wrong. All numbers are our choice. */
final class Faults {
    private static final Instant FOR_GOOD = Instant.parse("2100-01-01T00:00:00Z");

    private final Draft draft;
    private final DraftTray first;
    private final DraftTray second;

    private Faults(Draft draft) {
        this.draft = draft;
        this.first = draft.tray(0);
        this.second = draft.tray(1);
    }

    static Draft put(Draft draft) {
        var faults = new Faults(draft);
        switch (draft.kind) {
            case WARM_CENTRE, DRY_EDGES, OVER_A_MAT, MISSED_CORNER, MISSED_EDGE, OVERWATERED -> faults.ofWater();
            case MAT_STUCK_ON, MAT_NOT_STOPPING, MAT_DEAD, UNEVEN_HEAT, EMERGED, NO_PROBE -> faults.ofMats();
            case COLD_NIGHT, COLD_ROOTS, HOT_AIR, CLEAR_NIGHT, DAMP_AIR, LIGHT_OUT -> faults.ofRooms();
            case FED_TOO_SOON -> faults.tooSoon();
            case PROBE_LIFTED, PROBE_STUCK, PROBE_SILENT, PROBE_JUMPING, PROBE_RANGE, LATE_BATCHES -> faults.ofProbes();
            default -> faults.none();
        }
        draft.trays.stream()
                .filter(tray -> tray.waterEvery > 0)
                .forEach(tray -> draft.watersDaily(tray, 0, draft.days + 1));
        return draft;
    }

    private void ofWater() {
        switch (draft.kind) {
            case WARM_CENTRE -> {
                Drawing.onMat(draft, first);
                first.stage = Stage.SEEDLING;
                first.canopy = draft.between(0.006, 0.014);
                first.edgeFlow = 0.03;
                draft.matSetC = draft.between(24, 27);
                lastWatering(1);
            }
            case DRY_EDGES -> {
                first.canopy = draft.between(0.014, 0.022);
                first.edgeFlow = draft.between(0.25, 0.5);
                lastWatering(1);
            }
            case OVER_A_MAT -> overMat();
            case MISSED_CORNER -> missed(Zone.CORNER_BACK_RIGHT);
            case MISSED_EDGE -> missed(first.moistureAt.get(1));
            default -> overwatered();
        }
    }

    private void lastWatering(int day) {
        draft.days = Math.max(4, Math.min(draft.days, 5));
        first.waterEvery = 0;
        draft.waters(first, draft.at(day, first.waterHour), Set.of());
    }

    private void overMat() {
        Drawing.onMat(draft, first);
        first.edgeFlow = 0.02;
        first.rimWarmth = 0.1;
        first.evaporation = draft.between(0.005, 0.008);
        Drawing.watch(first, Zone.CORNER_BACK_RIGHT);
        draft.matSetC = draft.between(27, 29);
        draft.matRiseK = 24;
        draft.limits.put("uneven-ratio", "1.4");
        draft.limits.put("root-spread", "14");
        draft.limits.put("root-hot", "34");
        draft.days = 4 + draft.chance.nextInt(4);
        first.waterEvery = 2;
    }

    private void missed(Zone zone) {
        Drawing.watch(first, zone);
        draft.days = 3 + draft.chance.nextInt(3);
        first.waterEvery = 0;
        first.startWater = 0.8;
        for (int day = 1; day < draft.days; day++) {
            boolean skips = day == 1 || day == 2;
            draft.waters(first, draft.at(day, first.waterHour), skips ? Set.of(zone) : Set.of());
        }
    }

    private void overwatered() {
        draft.dayC = 16;
        draft.nightC = 14;
        draft.humidity = 0.78;
        first.canopy = 0.003;
        first.evaporation = 0.002;
        draft.limits.put("wet-line", "0.88");
        draft.limits.put("wet-hours", String.valueOf(24 + 12 * draft.chance.nextInt(2)));
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

    private void ofMats() {
        draft.trays.forEach(tray -> {
            Drawing.onMat(draft, tray);
            tray.waterEvery = 2;
        });
        Instant at = draft.at(0, draft.firstHour + draft.between(6, 24));
        draft.matSetC = draft.between(24, 26);
        draft.limits.put("root-spread", "14");
        switch (draft.kind) {
            case MAT_STUCK_ON -> {
                tooHot();
                draft.happens(at, world -> world.mat("mat-1").thermostat(false));
            }
            case MAT_NOT_STOPPING -> {
                tooHot();
                draft.powerProbe = true;
                draft.happens(at, world -> world.mat("mat-1").welded(true));
                draft.happens(at, world -> world.mat("mat-1").switchedOn(false));
                draft.write(at, "T01", EntryKind.MAT_OFF, Map.of());
            }
            case MAT_DEAD -> {
                draft.limits.put("root-cold", "19");
                draft.dayC = Math.min(draft.dayC, 19);
                draft.nightC = Math.min(draft.nightC, 16);
                draft.happens(at, world -> world.mat("mat-1").broken(true));
            }
            case UNEVEN_HEAT -> {
                first.rimWarmth = 0.05;
                draft.matRiseK = 26;
                draft.matSetC = 28;
                draft.dayC = 17;
                draft.nightC = 15;
                draft.limits.put("root-spread", "4");
                draft.limits.put("root-hot", "35");
                draft.limits.put("root-cold", "12");
                second.rimWarmth = 0.9;
            }
            case EMERGED -> draft.write(at, "T01", EntryKind.EMERGED, Map.of("percent", "80"));
            default -> first.temperatureAt.clear();
        }
    }

    private void tooHot() {
        draft.matRiseK = draft.between(26, 34);
        draft.limits.put("root-hot", "30");
        draft.limits.put("root-shut-off", "33");
        draft.days = Math.min(draft.days, 3);
    }

    private void ofRooms() {
        Instant evening = draft.at(1, 20);
        switch (draft.kind) {
            case COLD_NIGHT -> {
                draft.meanC = draft.between(2, 5);
                draft.limits.put("root-cold", "-5");
                draft.happens(evening, world -> world.room(draft.room).heater(false));
                draft.happens(draft.at(2, 6.5), world -> world.room(draft.room).heater(true));
                draft.days = Math.max(3, draft.days);
            }
            case COLD_ROOTS -> {
                draft.limits.put("root-cold", "12");
                draft.happens(evening, world -> world.room(draft.room).heater(false));
                draft.happens(draft.at(2, 10), world -> world.room(draft.room).heater(true));
                draft.meanC = 4;
                draft.limits.put("air-night-cold", "-5");
                draft.days = Math.max(3, draft.days);
            }
            case HOT_AIR -> {
                draft.limits.put("air-hot", "30");
                draft.happens(draft.at(1, 11), world -> world.room(draft.room).warmer(16));
                draft.happens(draft.at(1, 15.5), world -> world.room(draft.room).warmer(0));
            }
            case CLEAR_NIGHT -> frame(draft.between(8, 10));
            case DAMP_AIR -> {
                draft.humidityProbe = true;
                draft.days = Math.max(4, draft.days);
                draft.happens(draft.at(1, 9), world -> world.room(draft.room).damper(0.6));
                draft.happens(draft.at(2, 12), world -> world.room(draft.room).damper(0));
            }
            default -> {
                draft.lamps = new LampHours(LocalTime.of(6, 0), LocalTime.of(22, 0));
                draft.happens(draft.at(1, 9), world -> world.room(draft.room).lamps(false));
                draft.happens(draft.at(1, 16), world -> world.room(draft.room).lamps(true));
            }
        }
    }

    private void frame(double depth) {
        draft.roomKind = RoomKind.OUTDOORS;
        draft.room = "cold-frame";
        draft.humidityProbe = true;
        draft.meanC = 8.5;
        draft.swingK = 3.5;
        // Dry air: a damp night is another kind's matter.
        draft.dampness = 0.5;
        draft.days = 4;
        draft.clearNights.put(draft.firstDay.plusDays(1), depth);
        draft.limits.put("root-cold", "-8");
        draft.limits.put("air-night-cold", "-10");
        draft.trays.forEach(tray -> {
            tray.room = draft.room;
            tray.stage = Stage.HARDENING;
            tray.crop = "cabbage";
        });
    }

    private void tooSoon() {
        first.stage = Stage.SEEDLING;
        potUp();
        draft.write(draft.at(1, 15), "T01", EntryKind.FED, Map.of());
        draft.days = Math.max(3, draft.days);
    }

    private void potUp() {
        Instant at = draft.at(0, 9.5);
        first.waterEvery = 0;
        draft.write(at, "T01", EntryKind.POTTED_UP, Map.of());
        draft.happens(at, world -> world.tray("T01").refill(0.55));
        draft.waters(first, at.plusSeconds(900), Set.of());
        for (int day = 1; day <= draft.days; day++) {
            if (draft.at(day, first.waterHour).isBefore(draft.end())) {
                draft.waters(first, draft.at(day, first.waterHour), Set.of());
            }
        }
    }

    private void ofProbes() {
        draft.days = Math.max(3, draft.days);
        Instant from = draft.at(0, draft.firstHour + draft.between(8, 30));
        Instant to = from.plus(Duration.ofHours(20));
        String probe = "T01-" + draft.one(first.moistureAt).word() + "-moisture";
        ProbeFault fault = switch (draft.kind) {
            case PROBE_LIFTED -> new ProbeFault(Kind.LIFTED, from, to, 0);
            case PROBE_STUCK -> new ProbeFault(Kind.STUCK, from, FOR_GOOD, 0);
            case PROBE_SILENT -> new ProbeFault(Kind.SILENT, from, FOR_GOOD, 0);
            case PROBE_JUMPING -> new ProbeFault(Kind.JUMPING, from, to, 0.35);
            case PROBE_RANGE -> new ProbeFault(Kind.RANGE, from, to, draft.one(List.of(0.0, 4095.0, 65535.0)));
            default -> new ProbeFault(Kind.LATE, draft.start(), FOR_GOOD, 2);
        };
        draft.fault(probe, fault);
        if (draft.kind == ScenarioKind.LATE_BATCHES) {
            first.canopy = draft.between(0.017, 0.022);
            lastWatering(0);
        }
    }

    private void none() {
        switch (draft.kind) {
            case QUIET_THERMOSTAT -> {
                Drawing.onMat(draft, first);
                Drawing.onMat(draft, second);
                first.waterEvery = 2;
                second.waterEvery = 2;
                draft.limits.put("root-spread", "10");
                draft.limits.put("root-cold", "16");
            }
            case QUIET_FIRST_SOAK -> potUp();
            case QUIET_AT_THE_LINE ->
                draft.trays.forEach(tray -> {
                    tray.evaporation = 0.0004;
                    tray.canopy = 0;
                    tray.startWater = draft.between(0.505, 0.53);
                    tray.waterEvery = 0;
                    draft.days = 3;
                });
            case QUIET_CROSSTALK -> {
                draft.perKelvinSpread = 0.004;
                draft.dayC = 27;
                draft.nightC = 14;
                draft.trays.forEach(tray -> {
                    tray.evaporation = 0.0002;
                    tray.canopy = 0;
                    tray.startWater = 0.76;
                    tray.waterEvery = 0;
                });
            }
            case QUIET_DOOR -> {
                draft.meanC = 3;
                Instant at = draft.at(1, 22);
                draft.happens(at, world -> world.room(draft.room).door(true));
                draft.happens(
                        at.plusSeconds(180), world -> world.room(draft.room).door(false));
            }
            case QUIET_SUMMER_TIME -> {
                draft.zone = ZoneId.of("Europe/Vienna");
                draft.location = new Location(48.1, 15.6);
                draft.firstDay = draft.one(List.of(LocalDate.of(2025, 3, 28), LocalDate.of(2025, 10, 24)));
                draft.days = 4;
            }
            case QUIET_MILD_NIGHT -> frameMild();
            default -> {}
        }
    }

    private void frameMild() {
        frame(3);
        draft.meanC = 16;
        draft.limits.put("air-hot", "40");
    }
}
