package traytender.ingest.nursery.scenario;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.ProbeFault;
import traytender.ingest.nursery.probe.ProbeFault.Kind;

/** Probes that lie, fall silent or come late. All numbers are our choice. */
final class ProbeTroubles {
    private static final Instant FOR_GOOD = Instant.parse("2100-01-01T00:00:00Z");

    /** With the two thermometers that most trays have. */
    private static final List<Zone> NINE = List.of(
            Zone.CENTRE,
            Zone.BETWEEN,
            Zone.EDGE_FRONT,
            Zone.EDGE_BACK,
            Zone.CORNER_FRONT_LEFT,
            Zone.CORNER_BACK_RIGHT,
            Zone.CORNER_FRONT_RIGHT);

    private ProbeTroubles() {}

    static void lifted(Draft draft) {
        fault(draft, moistureProbe(draft), Kind.LIFTED, 0);
    }

    /** Half out of its cell: it reads a part of what it would. */
    static void halfOut(Draft draft) {
        fault(draft, moistureProbe(draft), Kind.SHIFTED, -draft.between(0.25, 0.45));
    }

    static void stuck(Draft draft) {
        fault(draft, anyProbe(draft), Kind.STUCK, 0);
    }

    static void silent(Draft draft) {
        fault(draft, anyProbe(draft), Kind.SILENT, 0);
    }

    static void jumping(Draft draft) {
        fault(draft, anyProbe(draft), Kind.JUMPING, draft.between(0.25, 0.5));
    }

    static void range(Draft draft) {
        String probe = anyProbe(draft);
        List<Double> readings =
                probe.endsWith("moisture") ? List.of(0.0, 4095.0, 65535.0) : List.of(-127.0, 85.0, 150.0, -50.0);
        fault(draft, probe, Kind.RANGE, draft.one(readings));
    }

    /** One moisture probe lies on the tray while another freezes or loses its wire. */
    static void two(Draft draft) {
        DraftTray first = draft.tray(0);
        fault(draft, moistureProbe(first, Zone.CENTRE), Kind.LIFTED, 0);
        Kind other = draft.one(List.of(Kind.STUCK, Kind.SILENT, Kind.JUMPING));
        fault(draft, moistureProbe(first, first.edge()), other, draft.between(0.25, 0.5));
    }

    /** A tray watched closely. */
    static void amongNine(Draft draft) {
        DraftTray first = draft.tray(0);
        for (Zone zone : NINE) {
            first.watch(zone);
        }
        fault(draft, moistureProbe(draft), Kind.LIFTED, 0);
    }

    private static String moistureProbe(DraftTray tray, Zone zone) {
        return tray.id + "-" + zone.word() + "-moisture";
    }

    static void lateBatches(Draft draft) {
        String probe = moistureProbe(draft);
        draft.tray(0).canopy = draft.between(0.017, 0.022);
        WaterTroubles.wateredLastOn(draft, 0);
        draft.fault(probe, new ProbeFault(Kind.LATE, draft.start(), FOR_GOOD, draft.one(List.of(0.5, 1.0, 2.0))));
    }

    static void clockWrong(Draft draft) {
        double hours = draft.between(1.5, 6) * (draft.chance.nextBoolean() ? 1 : -1);
        fault(draft, moistureProbe(draft), Kind.CLOCK, Math.rint(hours * 3600));
    }

    /** One moisture probe that reads more, or less, day by day. */
    static void drifting(Draft draft) {
        draft.days = 7 + draft.chance.nextInt(4);
        draft.minutes = 5;
        draft.drifts.put(moistureProbe(draft), draft.between(0.025, 0.045) * (draft.chance.nextBoolean() ? 1 : -1));
    }

    /** Power, broker or network fails: nothing is heard from anything for some hours. */
    static void allSilent(Draft draft) {
        draft.days = Math.max(3, draft.days);
        Instant from = begin(draft);
        Instant to = from.plus(Duration.ofMinutes(Math.round(draft.between(4.5, 9) * 60)));
        draft.everyProbe().forEach(probe -> draft.fault(probe, new ProbeFault(Kind.SILENT, from, to, 0)));
    }

    static void batteryLow(Draft draft) {
        draft.days = Math.max(3, draft.days);
        draft.batteryEmptyOnDay = draft.between(1.6, draft.days - 0.5);
    }

    static void spikes(Draft draft) {
        draft.instruments = draft.instruments.spiking(draft.between(0.004, 0.012));
    }

    private static Instant begin(Draft draft) {
        return draft.at(0, draft.firstHour + draft.between(8, 30));
    }

    /** Some hours of it, or for good. */
    private static void fault(Draft draft, String probe, Kind kind, double size) {
        draft.days = Math.max(3, draft.days);
        Instant from = begin(draft);
        boolean lasts = draft.chance.nextInt(3) == 0;
        Instant to = lasts ? FOR_GOOD : from.plus(Duration.ofMinutes(Math.round(draft.between(16, 30) * 60)));
        draft.fault(probe, new ProbeFault(kind, from, to, size));
    }

    private static String moistureProbe(Draft draft) {
        return moistureProbe(draft.tray(0), draft.one(draft.tray(0).moistureAt));
    }

    private static String anyProbe(Draft draft) {
        return switch (draft.chance.nextInt(4)) {
            case 0 -> "T01-" + draft.one(draft.tray(0).temperatureAt).word() + "-temperature";
            case 1 -> draft.chance.nextInt(2) == 0 ? draft.room + "-air" : moistureProbe(draft);
            default -> moistureProbe(draft);
        };
    }
}
