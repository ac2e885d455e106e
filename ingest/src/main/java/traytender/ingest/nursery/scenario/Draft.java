package traytender.ingest.nursery.scenario;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Cell;
import traytender.config.site.LampHours;
import traytender.config.site.Location;
import traytender.config.site.RoomKind;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.ProbeFault;
import traytender.ingest.nursery.world.Happening;
import traytender.ingest.nursery.world.Noise;
import traytender.ingest.nursery.world.Plugs;
import traytender.ingest.nursery.world.World;

/** A scenario being drawn: everything that a kind may change before it is written. <b>Not thread-safe.</b> */
final class Draft {
    /** The second room's id. */
    static final String GLASSHOUSE = "glasshouse";

    final ScenarioKind kind;
    final SplittableRandom chance;
    final Noise noise;
    String site = "";
    ZoneId zone = ZoneId.of("Europe/Vienna");
    Location location = new Location(48.1, 15.6);
    LocalDate firstDay = LocalDate.of(2025, 4, 8);
    double firstHour = 5;
    int days = 3;
    int minutes = 5;
    RoomKind roomKind = RoomKind.INDOORS;
    String room = "propagation";
    double dayC = 20;
    double nightC = 16;
    double humidity = 0.58;

    @Nullable
    LampHours lamps;

    /** A glasshouse beside the room, where a tray may be carried. */
    boolean glasshouse;

    boolean lightProbe;
    boolean humidityProbe;
    boolean powerProbe = true;
    double meanC = 9;
    double swingK = 4;
    double dampness = 0.72;
    double matRiseK = 18;
    double matSetC = 25.5;
    double matBandK = 1.2;
    double matTauMinutes = 25;
    LocalDate lastFrost = LocalDate.of(2025, 5, 15);
    /** Share of ordinary waterings that nobody writes down. */
    double forgets;

    Instruments instruments;
    /** A battery that is running down, by the day it is empty; NaN for no battery probe. */
    double batteryEmptyOnDay = Double.NaN;

    final Map<LocalDate, Double> clearNights = new HashMap<>();
    final List<DraftTray> trays = new ArrayList<>();
    final Map<String, String> limits = new LinkedHashMap<>();
    /** Limits of growing-on, where they differ. */
    final Map<String, String> grownLimits = new LinkedHashMap<>();

    /** Limits of the crop behind, where they differ. */
    final Map<String, String> limitsBehind = new LinkedHashMap<>();

    /** Drift a day of probes that drift more than others. */
    final Map<String, Double> drifts = new HashMap<>();

    final Map<String, List<ProbeFault>> faults = new HashMap<>();
    final List<Happening> happenings = new ArrayList<>();
    final List<JournalEntry> journal = new ArrayList<>();

    Draft(ScenarioKind kind, long seed) {
        this.kind = kind;
        this.chance = new SplittableRandom(seed);
        this.noise = new Noise(chance.nextLong());
        this.instruments = Instruments.draw(chance);
    }

    double between(double low, double high) {
        return low + (high - low) * chance.nextDouble();
    }

    <T> T one(List<T> of) {
        return of.get(chance.nextInt(of.size()));
    }

    Instant start() {
        return at(0, firstHour);
    }

    Instant end() {
        return at(days, firstHour);
    }

    /** A local hour of a day of the scenario, at a whole minute. */
    Instant at(int day, double hour) {
        return firstDay.plusDays(day)
                .atTime(LocalTime.MIDNIGHT)
                .atZone(zone)
                .plusMinutes(Math.round(hour * 60))
                .toInstant();
    }

    /** Sets a limit, to the third decimal. */
    void limit(String name, double value) {
        limits.put(name, text(value));
    }

    static String text(double value) {
        return BigDecimal.valueOf(Math.round(value * 1000), 3)
                .stripTrailingZeros()
                .toPlainString();
    }

    /** The mats that lie under a tray. */
    List<String> mats() {
        return trays.stream()
                .map(tray -> tray.mat)
                .filter(Objects::nonNull)
                .distinct()
                .toList();
    }

    DraftTray tray(int index) {
        return trays.get(index);
    }

    void happens(Instant at, Consumer<World> effect) {
        happenings.add(Happening.of(at, effect));
    }

    /** The ids of all moisture probes and thermometers, of the mats' reports and of what the rooms' air is measured with. */
    List<String> everyProbe() {
        var all = new ArrayList<String>();
        for (DraftTray tray : trays) {
            tray.moistureAt.forEach(zone -> all.add(tray.id + "-" + zone.word() + "-moisture"));
            tray.temperatureAt.forEach(zone -> all.add(tray.id + "-" + zone.word() + "-temperature"));
            all.add(tray.mat + "-power");
        }
        all.addAll(List.of(room + "-air", room + "-humidity", room + "-light"));
        return all;
    }

    void fault(String probe, ProbeFault fault) {
        faults.computeIfAbsent(probe, id -> new ArrayList<>()).add(fault);
    }

    void write(Instant at, String tray, EntryKind entry, Map<String, String> detail) {
        journal.add(new JournalEntry(at, tray, entry, detail, ""));
    }

    /** Waters a tray full, but for some zones; writes it down up to two minutes later. */
    void waters(DraftTray tray, Instant at, Set<Zone> missed) {
        double fullness = between(1.03, 1.1);
        boolean below = tray.fromBelow && missed.isEmpty();
        happenings.add(new Happening(at, tray.id, world -> {
            if (below) {
                world.tray(tray.id).waterFromBelow();
            } else {
                fill(world.tray(tray.id), missed, fullness);
            }
        }));
        if (!missed.isEmpty() || chance.nextDouble() >= forgets) {
            Map<String, String> detail = below ? Map.of("from", "below") : Map.of();
            write(at.plus(Duration.ofMinutes(chance.nextInt(3))), tray.id, EntryKind.WATERED, detail);
        }
    }

    /** Waters a tray every day at its hour, from a day on; some days with zones missed. */
    void watersEachDay(DraftTray tray, int fromDay, Set<Integer> missDays, Set<Zone> missed) {
        tray.waterEvery = 0;
        for (int day = fromDay; day <= days; day++) {
            if (at(day, tray.waterHour).isBefore(end())) {
                waters(tray, at(day, tray.waterHour), missDays.contains(day) ? missed : Set.of());
            }
        }
    }

    private void fill(Plugs tray, Set<Zone> missed, double fullness) {
        var cells = tray.traits().cells();
        var amounts = new double[cells.count()];
        Arrays.setAll(amounts, i -> {
            var cell = new Cell(i / cells.columns() + 1, i % cells.columns() + 1);
            boolean dry = missed.contains(Zone.of(cell, cells));
            return dry ? 0.005 : Math.max(0, fullness - tray.water(cell) + 0.02 * noise.normal(i));
        });
        tray.water(amounts);
    }

    /** The ordinary waterings of a tray to the end. */
    void watersAsUsual(DraftTray tray) {
        if (tray.waterEvery == 0) {
            return;
        }
        for (int day = 0; day <= days; day += tray.waterEvery) {
            Instant at = at(day, tray.waterHour);
            if (at.isAfter(start().plusSeconds(1800)) && at.isBefore(end())) {
                waters(tray, at, Set.of());
            }
        }
    }
}
