package traytender.config.folder;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Stage;
import traytender.config.journal.Rows;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.Mat;
import traytender.config.site.Sowing;
import traytender.config.site.Tray;

/** Reads trays and what is sown in them. */
final class TrayReading {
    static final List<String> KEYS =
            List.of("id", "room", "bench", "mat", "cells", "medium", "stage", "sowings", "since");
    static final List<String> SOWING_KEYS =
            List.of("rows", "columns", "crop", "variety", "sown", "seeds-per-cell", "stage", "since");

    private final SiteNames names;
    private final ZoneId zone;

    TrayReading(SiteNames names, ZoneId zone) {
        this.names = names;
        this.zone = zone;
    }

    @Nullable
    Tray tray(Field field) {
        Keys keys = field.keys(KEYS);
        if (keys == null) {
            return null;
        }
        String id = keys.need("id", value -> RoomReading.name(value, names.trays));
        String room = keys.need("room", value -> RoomReading.reference(value, names.rooms));
        String bench = keys.may("bench", Field::text);
        String mat = keys.may("mat", value -> RoomReading.reference(value, names.mats));
        checkMatRoom(keys, mat, room);
        Cells cells = keys.need("cells", TrayReading::cells);
        String medium = keys.or("medium", "", Field::text);
        Stage stage = keys.or("stage", Stage.GERMINATING, TrayReading::stage);
        List<Sowing> sowings = sowings(keys.field("sowings"), cells);
        Instant since = keys.or("since", Instant.MIN, value -> Times.instant(value, zone));
        if (id == null || room == null || cells == null) {
            return null;
        }
        var tray = new Tray(id, room, bench, mat, cells, medium, stage, sowings, since);
        names.trays.define(id, tray);
        return tray;
    }

    private void checkMatRoom(Keys keys, @Nullable String matName, @Nullable String room) {
        Field place = keys.field("mat");
        if (place == null || matName == null || room == null) {
            return;
        }
        place.problems().later(() -> {
            Mat mat = names.mats.things().get(matName);
            if (mat != null && !mat.room().equals(room)) {
                place.wrong(
                        "the mat " + place.shown() + " lies in " + mat.room() + ", the tray stands in " + room,
                        "give a mat of that room, or none");
            }
        });
    }

    static @Nullable Stage stage(Field field) {
        return field.word(List.of(Stage.values()), Stage::word);
    }

    private static @Nullable Cells cells(Field field) {
        Keys keys = field.keys(List.of("rows", "columns"));
        if (keys == null) {
            return null;
        }
        Integer rows = keys.need("rows", value -> value.whole(1, Cells.MOST));
        Integer columns = keys.need("columns", value -> value.whole(1, Cells.MOST));
        return rows == null || columns == null ? null : new Cells(rows, columns);
    }

    private List<Sowing> sowings(@Nullable Field field, @Nullable Cells cells) {
        if (field == null) {
            return List.of();
        }
        var sowings = new ArrayList<Sowing>();
        for (Field item : field.items()) {
            Field named = item.named("a sowing");
            Sowing sowing = sowing(named, cells == null ? new Cells(Cells.MOST, Cells.MOST) : cells);
            if (sowing != null) {
                sowings.stream()
                        .filter(other -> other.since().equals(sowing.since())
                                && other.block().overlaps(sowing.block()))
                        .findFirst()
                        .ifPresent(other -> named.wrong(
                                "the sowing of " + sowing.variety() + " overlaps the one of " + other.variety(),
                                "give each its own rows or columns, or the later one its since"));
                sowings.add(sowing);
            }
        }
        return sowings;
    }

    private @Nullable Sowing sowing(Field field, Cells cells) {
        Keys keys = field.keys(SOWING_KEYS);
        if (keys == null) {
            return null;
        }
        Rows rows = keys.or("rows", new Rows(1, cells.rows()), value -> range(value, cells.rows()));
        Rows columns = keys.or("columns", new Rows(1, cells.columns()), value -> range(value, cells.columns()));
        String crop = keys.need("crop", value -> RoomReading.reference(value, names.crops));
        String variety = keys.may("variety", Field::text);
        LocalDate sown = keys.may("sown", Times::date);
        Integer seeds = keys.may("seeds-per-cell", value -> value.whole(1, 100));
        Stage stage = keys.may("stage", TrayReading::stage);
        Instant since = keys.or("since", Instant.MIN, value -> Times.instant(value, zone));
        if (crop == null) {
            return null;
        }
        var block = new CellBlock(rows.first(), rows.last(), columns.first(), columns.last());
        return new Sowing(block, crop, variety == null ? crop : variety, sown, seeds, stage, since);
    }

    private static @Nullable Rows range(Field field, int most) {
        String text = field.written();
        Rows range = text == null ? null : Rows.parse(text).orElse(null);
        String right = "from 1 to " + most + ", such as " + (most > 1 ? "1-" + most : "1") + ", is right";
        return range == null || range.last() > most
                ? field.refuse(
                        range == null
                                ? field.what() + " is " + field.shown()
                                : field.what() + " " + field.shown() + " leaves the tray, which has " + most,
                        right)
                : range;
    }
}
