package traytender.rules.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.config.reading.Reading;
import traytender.config.site.Cell;
import traytender.config.site.Dated;
import traytender.config.site.Mat;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Room;
import traytender.config.site.Zone;
import traytender.rules.view.ProbeView;

/**
 * Every probe that bears on one tray, and where each of those in its cells stands: its own, its mat's, those of the room's
 * air. <b>Not thread-safe.</b>
 */
final class TrayProbes {
    /** Rooms and mats a tray listens to beside those it is known to stand in, since the journal may move it there any time. */
    private static final int MOST = 8;

    private final String tray;
    private final Map<String, Slot> slots;
    private final List<MoistureSpot> moisture;
    private final List<RootSpot> roots;
    private final List<ProbeTrack> others;
    private final List<RoomAir> airs;
    private final List<MatTrack> mats;

    /** Where a probe's readings go. */
    record Slot(Kind kind, int index, int inner) {
        enum Kind {
            MOISTURE,
            ROOT,
            OTHER,
            AIR,
            MAT
        }
    }

    TrayProbes(Bench bench, String tray) {
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
        bench.site().rooms().stream().limit(MOST).map(Room::id).forEach(rooms::add);
        rooms.forEach(room -> add(new RoomAir(bench, room)));
        var under = new LinkedHashSet<>(bench.matsOfTray(tray));
        bench.site().mats().stream().limit(MOST).map(Mat::id).forEach(under::add);
        under.forEach(mat -> bench.probesOfMat(mat).forEach(probe -> add(new MatTrack(mat, probe))));
    }

    private TrayProbes(TrayProbes other) {
        tray = other.tray;
        slots = other.slots;
        moisture = other.moisture.stream().map(MoistureSpot::copy).collect(Collectors.toCollection(ArrayList::new));
        roots = other.roots.stream().map(RootSpot::copy).collect(Collectors.toCollection(ArrayList::new));
        others = other.others.stream().map(ProbeTrack::copy).toList();
        airs = other.airs.stream().map(RoomAir::copy).toList();
        mats = other.mats.stream().map(MatTrack::copy).toList();
    }

    TrayProbes copy() {
        return new TrayProbes(this);
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

    Set<String> ids() {
        return slots.keySet();
    }

    /** The moisture probe of that id; null when it is none of a moisture probe. */
    @Nullable
    MoistureSpot moistureOf(String probe) {
        Slot slot = slots.get(probe);
        return slot != null && slot.kind == Slot.Kind.MOISTURE ? moisture.get(slot.index) : null;
    }

    /** Takes a reading of any probe but those of moisture. */
    void take(Reading reading, long listenedMinutes) {
        Slot slot = slots.get(reading.probe());
        if (slot == null || !isNewer(track(slot), reading)) {
            return;
        }
        switch (slot.kind) {
            case ROOT -> {
                RootSpot root = roots.get(slot.index);
                if (root.placed) {
                    root.take(reading, listenedMinutes);
                }
            }
            case OTHER -> others.get(slot.index).take(reading, listenedMinutes);
            case AIR -> airs.get(slot.index).take(slot.inner, reading, listenedMinutes);
            case MAT -> mats.get(slot.index).take(reading, listenedMinutes);
            case MOISTURE -> throw new IllegalArgumentException(reading.probe() + " measures moisture");
        }
    }

    private ProbeTrack track(Slot slot) {
        return switch (slot.kind) {
            case MOISTURE -> moisture.get(slot.index).track();
            case ROOT -> roots.get(slot.index).track();
            case OTHER -> others.get(slot.index);
            case AIR -> airs.get(slot.index).tracks().get(slot.inner);
            case MAT -> mats.get(slot.index).track();
        };
    }

    static boolean isNewer(ProbeTrack track, Reading reading) {
        return reading.timeMs() > track.lastMs();
    }

    /** Finds out anew in which cell, zone and sowing each probe stands; one that was put elsewhere begins anew there. */
    void arrange(Bench bench, @Nullable TrayNow now, Instant time) {
        for (int i = 0; i < roots.size(); i++) {
            Instant since = since(roots.get(i).track().probe(), time);
            if (roots.get(i).placed && !roots.get(i).since.equals(since)) {
                roots.set(i, new RootSpot(roots.get(i).track().probe()));
            }
            RootSpot root = roots.get(i);
            root.since = since;
            root.cell = cell(root.track().probe(), bench, now, time);
            root.placed = root.cell != null;
            root.zone = zone(root.cell, now);
            root.sowing = sowing(root.cell, now);
        }
        for (int i = 0; i < moisture.size(); i++) {
            Instant since = since(moisture.get(i).track().probe(), time);
            if (moisture.get(i).placed && !moisture.get(i).since.equals(since)) {
                moisture.set(i, new MoistureSpot(moisture.get(i).track().probe()));
            }
            MoistureSpot spot = moisture.get(i);
            spot.since = since;
            spot.cell = cell(spot.track().probe(), bench, now, time);
            spot.placed = spot.cell != null;
            spot.zone = zone(spot.cell, now);
            spot.sowing = sowing(spot.cell, now);
            spot.root = nearestRoot(spot);
        }
    }

    private static Instant since(Probe probe, Instant time) {
        return probe.at().inForce(time).map(Dated.From::since).orElse(Instant.MIN);
    }

    private @Nullable Cell cell(Probe probe, Bench bench, @Nullable TrayNow now, Instant time) {
        boolean here = now != null
                && probe.at()
                        .at(time)
                        .filter(place ->
                                place instanceof Place.InCell in && in.tray().equals(tray))
                        .isPresent();
        return here ? bench.growing().cell(probe, time).orElse(null) : null;
    }

    private static Zone zone(@Nullable Cell cell, @Nullable TrayNow now) {
        return cell == null || now == null ? Zone.TRAY : Zone.of(cell, now.cells());
    }

    private static @Nullable SowingNow sowing(@Nullable Cell cell, @Nullable TrayNow now) {
        return cell == null || now == null ? null : now.sowingAt(cell).orElse(null);
    }

    private int nearestRoot(MoistureSpot spot) {
        int nearest = -1;
        double distance = Double.MAX_VALUE;
        for (int i = 0; i < roots.size(); i++) {
            Cell cell = roots.get(i).cell;
            if (spot.cell != null && cell != null && spot.cell.distanceTo(cell) < distance) {
                distance = spot.cell.distanceTo(cell);
                nearest = i;
            }
        }
        return nearest;
    }

    /** The air of a room; null when the tray does not listen there. */
    @Nullable
    RoomAir air(String room) {
        for (RoomAir air : airs) {
            if (air.room().equals(room)) {
                return air;
            }
        }
        return null;
    }

    /** How its own and its mats' probes are, by id. */
    void views(Map<String, ProbeView> into, long listenedMinutes) {
        moisture.stream()
                .filter(spot -> spot.placed || spot.track().last() != null)
                .forEach(spot -> into.put(spot.track().probe().id(), spot.view(listenedMinutes)));
        roots.stream()
                .filter(root -> root.placed || root.track().last() != null)
                .forEach(root -> into.put(root.track().probe().id(), root.view(listenedMinutes)));
        others.forEach(other -> into.put(other.probe().id(), other.view(listenedMinutes)));
        mats.forEach(mat -> into.put(mat.track().probe().id(), mat.track().view(listenedMinutes)));
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
}
