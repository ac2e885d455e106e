package traytender.ingest.nursery.scenario;

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

    boolean humidityProbe;
    boolean powerProbe = true;
    double meanC = 9;
    double swingK = 4;
    double dampness = 0.72;
    double matRiseK = 18;
    double matSetC = 25.5;
    double gainSpread = 0.012;
    double offsetSpread = 0.008;
    double perKelvinSpread = 0.0006;
    final Map<LocalDate, Double> clearNights = new HashMap<>();
    final List<DraftTray> trays = new ArrayList<>();
    final Map<String, String> limits = new LinkedHashMap<>();
    final Map<String, List<ProbeFault>> faults = new HashMap<>();
    final List<Happening> happenings = new ArrayList<>();
    final List<JournalEntry> journal = new ArrayList<>();

    Draft(ScenarioKind kind, long seed) {
        this.kind = kind;
        this.chance = new SplittableRandom(seed);
        this.noise = new Noise(chance.nextLong());
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

    DraftTray tray(int index) {
        return trays.get(index);
    }

    void happens(Instant at, Consumer<World> effect) {
        happenings.add(Happening.of(at, effect));
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
        happenings.add(new Happening(at, tray.id, world -> fill(world.tray(tray.id), missed, fullness)));
        write(at.plus(Duration.ofMinutes(chance.nextInt(3))), tray.id, EntryKind.WATERED, Map.of());
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

    /** The ordinary waterings of every tray, from a day on, up to a day (exclusive). */
    void watersDaily(DraftTray tray, int fromDay, int toDay) {
        if (tray.waterEvery == 0) {
            return;
        }
        for (int day = fromDay; day < toDay; day += tray.waterEvery) {
            Instant at = at(day, tray.waterHour);
            if (at.isAfter(start().plusSeconds(1800)) && at.isBefore(end())) {
                waters(tray, at, Set.of());
            }
        }
    }
}
