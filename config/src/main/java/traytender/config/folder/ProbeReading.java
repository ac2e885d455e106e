package traytender.config.folder;

import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Tray;

/** Reads probes: what each measures, where, and in which messages. */
final class ProbeReading {
    static final List<String> KEYS = List.of("id", "measures", "at", "message", "calibration", "every");
    static final List<String> PLACE_KEYS = List.of("tray", "row", "column", "mat", "room", "since");

    private static final Duration SHORTEST_EVERY = Duration.ofSeconds(1);
    private static final Duration LONGEST_EVERY = Duration.ofDays(7);

    private final SiteNames names;
    private final ZoneId zone;

    ProbeReading(SiteNames names, ZoneId zone) {
        this.names = names;
        this.zone = zone;
    }

    @Nullable
    Probe probe(Field field) {
        Keys keys = field.keys(KEYS);
        if (keys == null) {
            return null;
        }
        String id = keys.need("id", value -> RoomReading.name(value, names.probes));
        Quantity measures = keys.need("measures", value -> value.word(List.of(Quantity.values()), Quantity::word));
        Dated<Place> at = keys.need("at", value -> Since.read(value, zone, item -> place(item, measures)));
        Binding binding = keys.need("message", value -> BindingReading.binding(value, measures));
        Dated<Calibration> calibration = keys.or(
                "calibration",
                Dated.always(new Calibration.None()),
                value -> CalibrationReading.dated(value, measures, zone));
        Duration every = keys.may("every", value -> Times.duration(value, SHORTEST_EVERY, LONGEST_EVERY, "PT1M"));
        return id == null || measures == null || at == null || binding == null
                ? null
                : new Probe(id, measures, at, binding, calibration, every);
    }

    private @Nullable Place place(Field field, @Nullable Quantity quantity) {
        Keys keys = field.keys(PLACE_KEYS);
        if (keys == null) {
            return null;
        }
        boolean cell = keys.has("row") || keys.has("column");
        long kinds = List.of("tray", "mat", "room").stream().filter(keys::has).count();
        if (kinds != 1 || (cell && !keys.has("tray"))) {
            return field.refuse(
                    kinds == 0 ? "at names no place" : "at names more than one place", rightPlace(quantity));
        }
        Place place =
                keys.has("mat") ? atMat(keys) : keys.has("room") ? inRoom(keys) : cell ? inCell(keys) : atTray(keys);
        if (place != null && quantity != null && !canBe(quantity, place)) {
            return field.refuse(quantity.word() + " cannot be measured there", rightPlace(quantity));
        }
        return place;
    }

    private @Nullable Place atMat(Keys keys) {
        String mat = keys.need("mat", value -> RoomReading.reference(value, names.mats));
        return mat == null ? null : new Place.AtMat(mat);
    }

    private @Nullable Place inRoom(Keys keys) {
        String room = keys.need("room", value -> RoomReading.reference(value, names.rooms));
        return room == null ? null : new Place.InRoom(room);
    }

    private @Nullable Place atTray(Keys keys) {
        String tray = keys.need("tray", value -> RoomReading.reference(value, names.trays));
        return tray == null ? null : new Place.AtTray(tray);
    }

    private @Nullable Place inCell(Keys keys) {
        String tray = keys.need("tray", value -> RoomReading.reference(value, names.trays));
        Integer row = keys.need("row", value -> value.whole(1, Cells.MOST));
        Integer column = keys.need("column", value -> value.whole(1, Cells.MOST));
        if (tray == null || row == null || column == null) {
            return null;
        }
        checkInside(keys.field("row"), tray, row, "rows");
        checkInside(keys.field("column"), tray, column, "columns");
        return new Place.InCell(tray, new Cell(row, column));
    }

    private void checkInside(@Nullable Field field, String trayName, int value, String what) {
        if (field == null) {
            return;
        }
        field.problems().later(() -> {
            Tray tray = names.trays.things().get(trayName);
            if (tray == null) {
                return;
            }
            int most = what.equals("rows") ? tray.cells().rows() : tray.cells().columns();
            if (value > most) {
                field.wrong(
                        "the probe is outside its tray: " + field.what() + " " + value + ", and " + trayName + " has "
                                + most + " " + what,
                        "from 1 to " + most + " is right");
            }
        });
    }

    private static boolean canBe(Quantity quantity, Place place) {
        return switch (quantity) {
            case MOISTURE, TEMPERATURE -> place instanceof Place.InCell;
            case MAT_SURFACE, MAT_POWER -> place instanceof Place.AtMat;
            case AIR_TEMPERATURE, HUMIDITY, LIGHT -> place instanceof Place.InRoom;
            case WEIGHT -> place instanceof Place.AtTray;
            case BATTERY -> true;
        };
    }

    private static String rightPlace(@Nullable Quantity quantity) {
        if (quantity == null) {
            return "{tray, row, column}, {tray}, {mat} or {room} is right";
        }
        return switch (quantity) {
            case MOISTURE, TEMPERATURE -> "a cell is right: {tray: ..., row: ..., column: ...}";
            case MAT_SURFACE, MAT_POWER -> "a mat is right: {mat: ...}";
            case AIR_TEMPERATURE, HUMIDITY, LIGHT -> "a room is right: {room: ...}";
            case WEIGHT -> "a whole tray is right: {tray: ...}";
            case BATTERY -> "{tray, row, column}, {tray}, {mat} or {room} is right";
        };
    }
}
