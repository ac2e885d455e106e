package traytender.config.folder;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.site.LampHours;
import traytender.config.site.Mat;
import traytender.config.site.Relay;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;

/** Reads rooms and the mats in them. */
final class RoomReading {
    static final List<String> ROOM_KEYS = List.of("id", "kind", "light");
    static final List<String> MAT_KEYS = List.of("id", "room", "thermostat", "relay", "since");

    private RoomReading() {}

    static @Nullable Room room(Field field, SiteNames names) {
        Keys keys = field.keys(ROOM_KEYS);
        if (keys == null) {
            return null;
        }
        String id = keys.need("id", value -> name(value, names.rooms));
        RoomKind kind = keys.need("kind", value -> value.word(List.of(RoomKind.values()), RoomKind::word));
        LampHours light = keys.may("light", Times::lampHours);
        if (id == null || kind == null) {
            return null;
        }
        var room = new Room(id, kind, light);
        names.rooms.define(id, room);
        return room;
    }

    static @Nullable Mat mat(Field field, SiteNames names, ZoneId zone) {
        Keys keys = field.keys(MAT_KEYS);
        if (keys == null) {
            return null;
        }
        String id = keys.need("id", value -> name(value, names.mats));
        String room = keys.need("room", value -> reference(value, names.rooms));
        boolean own =
                keys.or("thermostat", false, value -> "own".equals(value.word(List.of("own", "none"), word -> word)));
        Relay relay = keys.may("relay", RoomReading::relay);
        Instant since = keys.or("since", Instant.MIN, value -> Times.instant(value, zone));
        if (id == null || room == null) {
            return null;
        }
        var mat = new Mat(id, room, own, relay, since);
        names.mats.define(id, mat);
        return mat;
    }

    private static @Nullable Relay relay(Field field) {
        Keys keys = field.keys(List.of("topic", "rest"));
        if (keys == null) {
            return null;
        }
        String topic = keys.need("topic", Addresses::topic);
        String rest = keys.need("rest", Field::text);
        return topic == null || rest == null ? null : new Relay(topic, rest);
    }

    /** A name this file gives. */
    static @Nullable String name(Field field, Names<?> names) {
        String id = field.id();
        if (id != null) {
            names.add(id, field);
        }
        return id;
    }

    /** A name the file gives elsewhere. */
    static @Nullable String reference(Field field, Names<?> names) {
        String id = field.text();
        if (id != null) {
            names.refer(id, field);
        }
        return id;
    }
}
