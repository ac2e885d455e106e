package traytender.rules;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.config.site.Mat;
import traytender.config.site.Probe;
import traytender.rules.bench.Bench;
import traytender.rules.bench.RoomUnit;
import traytender.rules.bench.TrayUnit;
import traytender.rules.bench.Unit;
import traytender.rules.judge.Judge;
import traytender.rules.view.MatView;
import traytender.rules.view.ProbeHealth;
import traytender.rules.view.ProbeView;
import traytender.rules.view.RoomView;
import traytender.rules.view.TrayView;

/**
 * The live watch over a site: takes readings and journal entries as they come, looks at every tray and room once a minute of
 * event time, and says what opened, closed or changed. Same readings and journal, same alerts as {@link Replay}, ids included,
 * in whatever order they came within 48 hours.
 *
 * <p><b>Thread rule:</b> {@link #accept}, {@link #journal}, {@link #mustLookAgain} and {@link #tick} belong to one thread; the views and {@link
 * #alerts()} may be read from any thread and are immutable.
 */
public final class Watch implements AutoCloseable {
    /** A minute is looked at this long after its end, so that what is on its way then still counts. */
    private static final long GRACE_MS = 10_000;
    /** When readings run ahead of the ticks by more, as a stored history does, they drive the watch themselves. */
    private static final long AHEAD_MS = 3_600_000;

    private static final long BEHIND_MS = 600_000;

    private final SiteFolder folder;
    private final List<JournalEntry> journal;
    private final Consumer<AlertChange> changes;
    private final Judge judge = new Judge();
    private final Listening listening = new Listening();
    private final Map<String, ProbeMemory> memories = new TreeMap<>();
    private final Map<String, List<LiveUnit>> byProbe = new HashMap<>();
    private final List<LiveUnit> units = new ArrayList<>();
    private @Nullable Bench bench;
    private long firstMs = Long.MAX_VALUE;
    private long ranToMs = Long.MIN_VALUE;

    private long lookedMs = Long.MIN_VALUE;

    private volatile Views views;

    /** Everything readable from other threads, replaced as a whole. */
    private record Views(
            List<TrayView> trays,
            List<RoomView> rooms,
            List<MatView> mats,
            List<ProbeView> probes,
            List<Alert> alerts) {}

    /**
     * A watch that has seen nothing yet.
     *
     * @param journal every entry so far
     * @param changes told of every change, on the thread that caused it
     */
    public Watch(SiteFolder folder, List<JournalEntry> journal, Consumer<AlertChange> changes) {
        this.folder = folder;
        this.journal = new ArrayList<>(journal);
        this.changes = changes;
        for (Probe probe : folder.site().probes()) {
            memories.put(probe.id(), new ProbeMemory(probe.id()));
        }
        var waiting = new Bench(folder, folder.crops(), this.journal, Instant.MIN);
        this.views = look(Units.of(waiting), null);
    }

    /** Takes readings in any order; a repeated one changes nothing. */
    public void accept(List<Reading> readings) {
        for (Reading reading : readings) {
            ProbeMemory memory = memories.get(reading.probe());
            if (memory == null || isTooOld(reading) || !memory.add(reading)) {
                continue;
            }
            take(reading);
            if (reading.timeMs() > ranToMs + AHEAD_MS) {
                run(minuteBefore(reading.timeMs() - BEHIND_MS));
            }
        }
    }

    private boolean isTooOld(Reading reading) {
        return ranToMs != Long.MIN_VALUE && reading.timeMs() < ranToMs - LiveUnit.REACH_MS;
    }

    private void take(Reading reading) {
        if (reading.timeMs() < firstMs) {
            firstMs = reading.timeMs();
            begin();
        }
        if (listening.add(reading.timeMs())) {
            units.forEach(unit -> unit.backTo(reading.timeMs()));
        }
        byProbe.getOrDefault(reading.probe(), List.of()).forEach(unit -> unit.backTo(reading.timeMs()));
    }

    /** The first reading says from when on the site file's stages hold. */
    private void begin() {
        bench = new Bench(folder, folder.crops(), journal, Instant.ofEpochMilli(firstMs));
        if (!units.isEmpty()) {
            for (LiveUnit unit : units) {
                unit.setBench(bench);
                unit.backTo(firstMs);
            }
            return;
        }
        ranToMs = minuteBefore(firstMs);
        for (Unit unit : Units.of(bench)) {
            var live = new LiveUnit(
                    unit,
                    memories.values().stream()
                            .filter(memory -> unit.probes().contains(memory.probe()))
                            .toList());
            units.add(live);
            unit.probes()
                    .forEach(probe -> byProbe.computeIfAbsent(probe, id -> new ArrayList<>())
                            .add(live));
        }
    }

    /** Takes a new journal entry, which may lie in the past. */
    public void journal(JournalEntry entry) {
        var all = new ArrayList<>(journal);
        all.add(entry);
        journal(all, List.of(entry));
    }

    /**
     * Takes the journal as it is now.
     *
     * @param all every entry that counts, in order of time
     * @param changed those that were written or withdrawn since, which may lie in the past
     */
    public void journal(List<JournalEntry> all, List<JournalEntry> changed) {
        journal.clear();
        journal.addAll(all);
        if (bench == null) {
            return;
        }
        Bench before = bench;
        bench = new Bench(folder, folder.crops(), journal, Instant.ofEpochMilli(firstMs));
        units.forEach(unit -> unit.setBench(bench));
        changed.forEach(entry -> backToEntry(entry, before, bench));
    }

    private void backToEntry(JournalEntry entry, Bench before, Bench after) {
        for (LiveUnit unit : units) {
            String place = unit.unit().place();
            boolean concerned = unit.unit() instanceof RoomUnit
                    || place.equals(entry.tray())
                    || !before.growing().changes(place).equals(after.growing().changes(place));
            if (concerned) {
                unit.backTo(entry.time().toEpochMilli());
            }
        }
    }

    /** Whether something has come that changes a minute looked at already: the next tick looks again. */
    public boolean mustLookAgain() {
        for (int i = 0; i < units.size(); i++) {
            if (units.get(i).mustGoBack()) {
                return true;
            }
        }
        return false;
    }

    /** Says that it is now this time: minutes that have ended are looked at. */
    public void tick(Instant now) {
        if (bench == null) {
            return;
        }
        long toMs = Math.max(ranToMs, minuteBefore(now.toEpochMilli() - GRACE_MS));
        if (toMs == lookedMs && !mustLookAgain()) {
            return;
        }
        run(toMs);
        lookedMs = toMs;
        views = look(units.stream().map(LiveUnit::unit).toList(), Instant.ofEpochMilli(ranToMs));
    }

    private void run(long toMs) {
        ranToMs = Math.max(ranToMs, toMs);
        for (LiveUnit unit : units) {
            unit.run(ranToMs, listening, judge);
            unit.tell(changes);
        }
        long needed = units.stream().mapToLong(LiveUnit::neededFromMs).min().orElse(Long.MIN_VALUE);
        memories.values().forEach(memory -> memory.forgetBefore(needed));
    }

    private static long minuteBefore(long timeMs) {
        return Math.floorDiv(timeMs, Listening.MINUTE_MS) * Listening.MINUTE_MS;
    }

    private Views look(List<Unit> all, @Nullable Instant asOf) {
        var trays = new ArrayList<TrayView>();
        var rooms = new ArrayList<RoomView>();
        Map<String, MatView> mats = new HashMap<>();
        Map<String, ProbeView> probes = new HashMap<>();
        var alerts = new ArrayList<Alert>();
        for (Unit unit : all) {
            alerts.addAll(unit.book().alerts());
            if (unit instanceof TrayUnit tray) {
                trays.add(tray.view(asOf));
                tray.probes(probes);
                folder.site().mats().forEach(mat -> mats.merge(mat.id(), tray.mat(mat.id()), Watch::better));
            } else if (unit instanceof RoomUnit room) {
                rooms.add(room.view());
                room.probes(probes);
            }
        }
        alerts.sort(Replay.ORDER);
        return new Views(
                List.copyOf(trays),
                List.copyOf(rooms),
                folder.site().mats().stream()
                        .map(mat -> mats.getOrDefault(mat.id(), unknown(mat)))
                        .toList(),
                folder.site().probes().stream()
                        .map(probe -> probes.getOrDefault(probe.id(), new ProbeView(probe, null, ProbeHealth.WAITING)))
                        .toList(),
                List.copyOf(alerts));
    }

    private static MatView unknown(Mat mat) {
        return new MatView(mat.id(), MatView.State.UNKNOWN, true, null);
    }

    private static MatView better(MatView one, MatView other) {
        boolean same = one.inferred() == other.inferred() && one.state() == other.state();
        boolean less = one.state() == MatView.State.UNKNOWN || (one.inferred() && !other.inferred());
        return less || (same && one.heat() == null) ? other : one;
    }

    /** Every tray, in the order of the site file. */
    public List<TrayView> trays() {
        return views.trays();
    }

    /** Every room, in the order of the site file. */
    public List<RoomView> rooms() {
        return views.rooms();
    }

    /** Every mat, in the order of the site file. */
    public List<MatView> mats() {
        return views.mats();
    }

    /** Every probe, in the order of the site file. */
    public List<ProbeView> probes() {
        return views.probes();
    }

    /** Every alert known, in order of opening. */
    public List<Alert> alerts() {
        return views.alerts();
    }

    @Override
    public void close() {
        judge.close();
    }
}
