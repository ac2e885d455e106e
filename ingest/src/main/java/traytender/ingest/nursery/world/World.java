package traytender.ingest.nursery.world;

import java.time.Instant;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import traytender.config.site.Cell;
import traytender.config.site.RoomKind;

/**
 * The whole nursery at one minute. {@link #step()} takes it to the next; {@link #copy()} makes another that goes its own way through the same
 * weather.
 *
 * <p><b>Not thread-safe.</b>
 */
public final class World {
    private static final double STEP_HOURS = 1.0 / 60;

    private final Sky sky;
    private final Map<String, RoomAir> rooms = new LinkedHashMap<>();
    private final Map<String, HeatMat> mats = new LinkedHashMap<>();
    private final Map<String, Plugs> trays = new LinkedHashMap<>();
    private Instant time;

    public World(Sky sky, Instant start) {
        this.sky = sky;
        this.time = start;
    }

    /** Brings air, mats and medium to where they would be by now, from eight hours before; the water stays as it is. */
    public World settled() {
        Instant start = time;
        time = start.minusSeconds(8 * 3600);
        trays.values().forEach(Plugs::keepWater);
        while (time.isBefore(start)) {
            step();
        }
        trays.values().forEach(Plugs::bringWaterBack);
        return this;
    }

    public World add(RoomAir room) {
        rooms.put(room.traits().id(), room);
        return this;
    }

    public World add(HeatMat mat) {
        mats.put(mat.traits().id(), mat);
        return this;
    }

    public World add(Plugs tray) {
        trays.put(tray.traits().id(), tray);
        return this;
    }

    /** A world alike in all that goes on by itself from here. */
    public World copy() {
        var copy = new World(sky, time);
        rooms.values().forEach(room -> copy.add(room.copy()));
        mats.values().forEach(mat -> copy.add(mat.copy()));
        trays.values().forEach(tray -> copy.add(tray.copy()));
        return copy;
    }

    /** One minute on. */
    public void step() {
        rooms.values().forEach(room -> room.step(time, sky, STEP_HOURS));
        mats.values()
                .forEach(mat -> mat.step(sensed(mat), room(mat.traits().room()).temperature(), STEP_HOURS));
        trays.values().forEach(this::stepTray);
        time = time.plusSeconds(60);
    }

    private void stepTray(Plugs tray) {
        RoomAir air = room(tray.room());
        String mat = tray.traits().mat();
        double surface = mat == null ? air.temperature() : mat(mat).surface();
        double sun = air.traits().kind() == RoomKind.OUTDOORS ? sky.sun(time) : 0;
        tray.step(air, surface, sun, STEP_HOURS);
    }

    private double sensed(HeatMat mat) {
        Plugs tray = tray(mat.traits().sensorTray());
        var cells = tray.traits().cells();
        double heat = tray.heat(new Cell((cells.rows() + 1) / 2, (cells.columns() + 1) / 2));
        return Double.isNaN(heat) ? room(tray.room()).temperature() : heat;
    }

    /** The minute that was reached; what the parts tell is as at this time. */
    public Instant time() {
        return time;
    }

    public Sky sky() {
        return sky;
    }

    public RoomAir room(String id) {
        return known(rooms, id);
    }

    public HeatMat mat(String id) {
        return known(mats, id);
    }

    /** The mats' ids. */
    public Set<String> mats() {
        return Collections.unmodifiableSet(mats.keySet());
    }

    public Plugs tray(String id) {
        return known(trays, id);
    }

    private static <T> T known(Map<String, T> parts, String id) {
        return Optional.ofNullable(parts.get(id))
                .orElseThrow(() -> new IllegalArgumentException("the nursery has no " + id));
    }
}
