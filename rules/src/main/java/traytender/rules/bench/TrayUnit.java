package traytender.rules.bench;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.journal.TrayNow;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Zone;
import traytender.rules.book.AlertBook;
import traytender.rules.drying.AirPull;
import traytender.rules.drying.LightPlan;
import traytender.rules.drying.WateringDetector.Step;
import traytender.rules.judge.Judge;
import traytender.rules.view.MatView;
import traytender.rules.view.ProbeView;
import traytender.rules.view.TrayView;
import traytender.rules.words.Words;

/** One tray with its probes, its mat's probes and the air of every room it ever stands in. <b>Not thread-safe.</b> */
public final class TrayUnit implements Unit {
    /** Rooms and mats a tray listens to beside those it is known to stand in, since the journal may move it there any time. */
    private static final int MOST = 8;

    private final String tray;
    private final Map<String, Slot> slots;
    private final List<MoistureSpot> moisture;
    private final List<RootSpot> roots;
    private final List<ProbeTrack> others;
    private final List<RoomAir> airs;
    private final List<MatTrack> mats;
    private final AlertBook book;
    private final Watering watering;
    private final TrayHeat heat;
    private final TrayCalendar calendar;
    private final ProbeWatch probeWatch;
    private Bench bench;
    private long listenedMinutes;
    private int arrangedAt = -1;
    private @Nullable TrayNow now;
    private List<String> neighbours = List.of();
    private boolean firstOnMat;

    /** Where a probe's readings go. */
    private record Slot(Kind kind, int index, int inner) {
        enum Kind {
            MOISTURE,
            ROOT,
            OTHER,
            AIR,
            MAT
        }
    }

    /** A tray of which nothing has been heard. */
    public TrayUnit(Bench bench, String tray) {
        this.bench = bench;
        this.tray = tray;
        slots = new HashMap<>();
        moisture = new ArrayList<>();
        roots = new ArrayList<>();
        others = new ArrayList<>();
        airs = new ArrayList<>();
        mats = new ArrayList<>();
        bench.probesOfTray(tray).forEach(this::add);
        var rooms = new LinkedHashSet<String>();
        bench.site().tray(tray).ifPresent(own -> rooms.add(own.room()));
        bench.growing().changes(tray).forEach(change -> rooms.add(change.room()));
        bench.site().rooms().stream().limit(MOST).forEach(room -> rooms.add(room.id()));
        rooms.forEach(room -> add(new RoomAir(bench, room)));
        bench.matsOfTray(tray).forEach(mat -> bench.probesOfMat(mat).forEach(probe -> add(new MatTrack(mat, probe))));
        book = new AlertBook(tray, false);
        watering = new Watering();
        heat = new TrayHeat();
        calendar = new TrayCalendar();
        probeWatch = new ProbeWatch();
    }

    private TrayUnit(TrayUnit other) {
        bench = other.bench;
        tray = other.tray;
        slots = other.slots;
        moisture =
                new ArrayList<>(other.moisture.stream().map(MoistureSpot::copy).toList());
        roots = new ArrayList<>(other.roots.stream().map(RootSpot::copy).toList());
        others = new ArrayList<>(other.others.stream().map(ProbeTrack::copy).toList());
        airs = new ArrayList<>(other.airs.stream().map(RoomAir::copy).toList());
        mats = new ArrayList<>(other.mats.stream().map(MatTrack::copy).toList());
        book = other.book.copy();
        watering = other.watering.copy();
        heat = other.heat.copy();
        calendar = other.calendar.copy();
        probeWatch = new ProbeWatch();
        listenedMinutes = other.listenedMinutes;
        arrangedAt = other.arrangedAt;
        now = other.now;
        neighbours = other.neighbours;
        firstOnMat = other.firstOnMat;
    }

    private void add(Probe probe) {
        switch (probe.measures()) {
            case MOISTURE -> {
                slots.put(probe.id(), new Slot(Slot.Kind.MOISTURE, moisture.size(), 0));
                moisture.add(new MoistureSpot(probe));
            }
            case TEMPERATURE -> {
                slots.put(probe.id(), new Slot(Slot.Kind.ROOT, roots.size(), 0));
                roots.add(new RootSpot(probe));
            }
            default -> {
                slots.put(probe.id(), new Slot(Slot.Kind.OTHER, others.size(), 0));
                others.add(new ProbeTrack(probe));
            }
        }
    }

    private void add(RoomAir air) {
        List<Probe> probes = air.probes();
        for (int i = 0; i < probes.size(); i++) {
            slots.put(probes.get(i).id(), new Slot(Slot.Kind.AIR, airs.size(), i));
        }
        airs.add(air);
    }

    private void add(MatTrack mat) {
        slots.put(mat.track().probe().id(), new Slot(Slot.Kind.MAT, mats.size(), 0));
        mats.add(mat);
    }

    @Override
    public String place() {
        return tray;
    }

    @Override
    public Set<String> probes() {
        return slots.keySet();
    }

    @Override
    public AlertBook book() {
        return book;
    }

    @Override
    public Unit copy() {
        return new TrayUnit(this);
    }

    @Override
    public void setBench(Bench bench) {
        this.bench = bench;
        arrangedAt = -1;
    }

    @Override
    public void take(Reading reading) {
        Slot slot = slots.get(reading.probe());
        if (slot == null) {
            return;
        }
        switch (slot.kind) {
            case MOISTURE -> takeMoisture(moisture.get(slot.index), reading);
            case ROOT -> {
                if (isNewer(roots.get(slot.index).track(), reading)) {
                    roots.get(slot.index).take(reading, listenedMinutes);
                }
            }
            case OTHER -> {
                if (isNewer(others.get(slot.index), reading)) {
                    others.get(slot.index).take(reading, listenedMinutes);
                }
            }
            case AIR -> {
                RoomAir air = airs.get(slot.index);
                if (isNewer(air.tracks().get(slot.inner), reading)) {
                    air.take(slot.inner, reading, listenedMinutes);
                }
            }
            case MAT -> {
                if (isNewer(mats.get(slot.index).track(), reading)) {
                    mats.get(slot.index).take(reading, listenedMinutes);
                }
            }
        }
    }

    private static boolean isNewer(ProbeTrack track, Reading reading) {
        return reading.timeMs() > track.lastMs();
    }

    private void takeMoisture(MoistureSpot spot, Reading reading) {
        if (!isNewer(spot.track(), reading)) {
            return;
        }
        arrange(reading.timeMs());
        double temperature = spot.root >= 0 ? roots.get(spot.root).value() : Double.NaN;
        LightPlan light = now == null ? LightPlan.ALWAYS : bench.light(now.room());
        Step step = spot.take(reading, listenedMinutes, temperature, light, AirPull.USUAL);
        if (step == Step.RISING && spot.placed) {
            watering.seen(spot, moisture);
        }
    }

    /** Finds out anew who stands where when something has changed. */
    private void arrange(long timeMs) {
        int changes = bench.changesBy(timeMs);
        if (changes == arrangedAt) {
            return;
        }
        arrangedAt = changes;
        Instant time = Instant.ofEpochMilli(timeMs);
        now = bench.growing().find(tray, time).orElse(null);
        neighbours = now == null ? List.of() : bench.neighbours(now, time);
        firstOnMat = now != null && bench.isFirstOnMat(now, time);
        for (RootSpot root : roots) {
            root.cell = bench.growing().cell(root.track().probe(), time).orElse(null);
            root.placed =
                    now != null && root.cell != null && isHere(root.track().probe(), time);
            root.zone = root.placed ? zone(root.cell) : Zone.TRAY;
            root.sowing = root.placed ? sowing(root.cell) : null;
        }
        for (MoistureSpot spot : moisture) {
            spot.cell = bench.growing().cell(spot.track().probe(), time).orElse(null);
            spot.placed =
                    now != null && spot.cell != null && isHere(spot.track().probe(), time);
            spot.zone = spot.placed ? zone(spot.cell) : Zone.TRAY;
            spot.sowing = spot.placed ? sowing(spot.cell) : null;
            spot.root = nearestRoot(spot);
        }
    }

    private boolean isHere(Probe probe, Instant time) {
        return probe.at()
                .at(time)
                .filter(place -> place instanceof traytender.config.site.Place.InCell in
                        && in.tray().equals(tray))
                .isPresent();
    }

    private Zone zone(traytender.config.site.@Nullable Cell cell) {
        return cell == null || now == null ? Zone.TRAY : Zone.of(cell, now.cells());
    }

    private traytender.config.journal.@Nullable SowingNow sowing(traytender.config.site.@Nullable Cell cell) {
        return cell == null || now == null ? null : now.sowingAt(cell).orElse(null);
    }

    private int nearestRoot(MoistureSpot spot) {
        int nearest = -1;
        double distance = Double.MAX_VALUE;
        for (int i = 0; i < roots.size(); i++) {
            RootSpot root = roots.get(i);
            if (spot.cell != null && root.placed && root.cell != null && spot.cell.distanceTo(root.cell) < distance) {
                distance = spot.cell.distanceTo(root.cell);
                nearest = i;
            }
        }
        return nearest;
    }

    @Override
    public void look(long minuteMs, Judge judge) {
        listenedMinutes++;
        arrange(minuteMs - 1);
        judge.begin();
        TrayNow here = now;
        if (here == null) {
            book.judge(minuteMs, List.of(), (kind, zone) -> false, new Words(bench.site(), judge.findings()));
            return;
        }
        RoomAir air = airs.stream()
                .filter(a -> a.room().equals(here.room()))
                .findFirst()
                .orElse(null);
        double airC = air == null ? Double.NaN : air.mean(Quantity.AIR_TEMPERATURE, listenedMinutes);
        watering.look(minuteMs, bench, tray, moisture);
        for (RootSpot root : roots) {
            root.watch(minuteMs, airC, watering.isRecent(minuteMs, Duration.ofMinutes(75)));
        }
        for (MoistureSpot spot : moisture) {
            if (watering.wasDisturbed(minuteMs)) {
                spot.explainFall();
            }
            spot.watchTrouble(minuteMs, listenedMinutes);
        }
        if (here.isWatched()) {
            askWater(minuteMs, here, judge);
            heat.ask(minuteMs, listenedMinutes, this, here, airC, judge);
            calendar.ask(minuteMs, this, here, airC, judge);
        }
        probeWatch.ask(listenedMinutes, this, here, judge);
        noteStale();
        book.judge(minuteMs, judge.findings().list(), this::isUntold, new Words(bench.site(), judge.findings()));
    }

    private void askWater(long minuteMs, TrayNow here, Judge judge) {
        watering.compare(minuteMs, moisture, listenedMinutes, book);
        for (MoistureSpot spot : moisture) {
            if (spot.placed && spot.sowing != null && spot.sowing.isWatched()) {
                WaterFacts.fill(spot, minuteMs, listenedMinutes, this, here, watering);
                judge.ask(spot.facts);
            }
        }
    }

    /** Plants' alerts of a zone stay as they are while its probe is late but not yet said to be silent. */
    private boolean isUntold(AlertKind kind, @Nullable Zone zone) {
        if (kind.isAboutProbe()) {
            return false;
        }
        return switch (kind) {
            case DRY, DRYING_SOON, UNEVEN_DRYING, MISSED_WATERING, STAYING_WET -> staleZones.contains(zone);
            case CENTRE_OVERHEATING, UNEVEN_HEAT, ROOT_COLD, MAT_NOT_HEATING, MAT_NOT_STOPPING -> staleRoots;
            default -> false;
        };
    }

    private final EnumSet<Zone> staleZones = EnumSet.noneOf(Zone.class);
    private boolean staleRoots;

    private void noteStale() {
        staleZones.clear();
        for (MoistureSpot spot : moisture) {
            if (spot.placed
                    && spot.track().last() != null
                    && !spot.track().isFresh(listenedMinutes)
                    && !spot.track().isSilent(listenedMinutes)) {
                staleZones.add(spot.zone);
            }
        }
        staleRoots = roots.stream()
                .anyMatch(root -> root.placed
                        && root.track().last() != null
                        && !root.track().isFresh(listenedMinutes)
                        && !root.track().isSilent(listenedMinutes));
    }

    /** What is known of it now, for the page. */
    public TrayView view(@Nullable Instant asOf) {
        return TrayViews.of(this, asOf);
    }

    /** How its own probes are, by id. */
    public void probes(Map<String, ProbeView> into) {
        moisture.forEach(spot -> into.put(spot.track().probe().id(), spot.view(listenedMinutes)));
        roots.forEach(root -> into.put(root.track().probe().id(), root.view(listenedMinutes)));
        others.forEach(other -> into.put(other.probe().id(), other.view(listenedMinutes)));
        mats.forEach(mat -> into.put(mat.track().probe().id(), mat.track().view(listenedMinutes)));
    }

    /** What a mat under it is doing, as far as this tray can tell. */
    public MatView mat(String mat) {
        for (MatTrack track : mats) {
            if (track.mat().equals(mat) && track.isKnown(listenedMinutes)) {
                return new MatView(mat, track.isHeating() ? MatView.State.HEATING : MatView.State.RESTING, false);
            }
        }
        return heat.inferred(mat, now);
    }

    Bench bench() {
        return bench;
    }

    List<MoistureSpot> moisture() {
        return moisture;
    }

    List<RootSpot> roots() {
        return roots;
    }

    List<ProbeTrack> others() {
        return others;
    }

    List<MatTrack> mats() {
        return mats;
    }

    List<RoomAir> airs() {
        return airs;
    }

    List<String> neighbours() {
        return neighbours;
    }

    boolean isFirstOnMat() {
        return firstOnMat;
    }

    Watering watering() {
        return watering;
    }

    long listenedMinutes() {
        return listenedMinutes;
    }

    @Nullable
    TrayNow now() {
        return now;
    }
}
