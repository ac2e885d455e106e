package traytender.ingest.nursery.scenario;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import traytender.config.crop.Stage;
import traytender.config.site.Cell;
import traytender.config.site.LampHours;
import traytender.config.site.Zone;

/** A drawn bench as {@code site.yaml} and {@code crops/*.yaml}. */
final class SiteText {
    private final Draft draft;
    private final StringBuilder text = new StringBuilder();
    private final String prefix;
    private final SplittableRandom counts;

    private SiteText(Draft draft) {
        this.draft = draft;
        this.prefix = draft.site.toLowerCase(Locale.ROOT).replaceAll(" .*", "");
        this.counts = new SplittableRandom(draft.noise.seed());
    }

    static String site(Draft draft) {
        return new SiteText(draft).write();
    }

    /** The limits of the draft for every stage of a crop. */
    static String crop(Draft draft, String crop, boolean behind) {
        var text = new StringBuilder("crop: " + crop + "\nstages:\n");
        for (Stage stage : Stage.values()) {
            if (stage != Stage.PLANTED_OUT) {
                text.append("  ").append(stage.word()).append(":\n");
                var limits = new LinkedHashMap<>(draft.limits);
                limits.putAll(behind ? draft.limitsBehind : Map.of());
                limits.putAll(behind && stage == Stage.GROWING_ON ? draft.grownLimits : Map.of());
                limits.forEach((key, value) -> text.append("    ")
                        .append(key)
                        .append(": ")
                        .append(value)
                        .append('\n'));
            }
        }
        return text.toString();
    }

    private String write() {
        line("site: " + draft.site);
        line("timezone: " + draft.zone.getId());
        line(String.format(
                Locale.ROOT,
                "location: {latitude: %.2f, longitude: %.2f}",
                draft.location.latitude(),
                draft.location.longitude()));
        line("rooms:");
        line("  - {id: " + draft.room + ", kind: " + draft.roomKind.word() + light() + "}");
        if (draft.glasshouse) {
            line("  - {id: " + Draft.GLASSHOUSE + ", kind: greenhouse}");
        }
        mats();
        trays();
        line("probes:");
        draft.trays.forEach(this::trayProbes);
        if (draft.powerProbe) {
            draft.mats().forEach(this::power);
        }
        battery();
        roomProbes();
        line("messages:");
        line("  broker: built-in");
        line(String.format(
                Locale.ROOT,
                "last-frost: %02d-%02d",
                draft.lastFrost.getMonthValue(),
                draft.lastFrost.getDayOfMonth()));
        line("morning-round: \"10:00\"");
        return text.toString();
    }

    private String light() {
        LampHours lamps = draft.lamps;
        return lamps == null ? "" : ", light: \"" + lamps.on() + "-" + lamps.off() + "\"";
    }

    private void mats() {
        List<String> mats = draft.mats();
        if (!mats.isEmpty()) {
            line("mats:");
            mats.forEach(mat -> line("  - {id: " + mat + ", room: " + draft.room + "}"));
        }
    }

    private void trays() {
        line("trays:");
        for (DraftTray tray : draft.trays) {
            line("  - id: " + tray.id);
            line("    room: " + tray.room);
            if (tray.mat != null) {
                line("    mat: " + tray.mat);
            }
            line("    cells: {rows: " + tray.cells.rows() + ", columns: " + tray.cells.columns() + "}");
            line("    medium: peat-perlite");
            line("    stage: " + tray.stage.word());
            line("    sowings:");
            int front = tray.cropBehind == null ? tray.cells.rows() : tray.cells.rows() / 2;
            line("      - {rows: 1-" + front + ", crop: " + tray.crop + ", variety: " + tray.variety + "}");
            if (tray.cropBehind != null) {
                line("      - {rows: " + (front + 1) + "-" + tray.cells.rows() + ", crop: " + tray.cropBehind
                        + ", variety: Tin Whistle, stage: growing-on}");
            }
        }
    }

    private void trayProbes(DraftTray tray) {
        for (Zone zone : tray.moistureAt) {
            int dry = 2750 + counts.nextInt(300);
            int wet = 1250 + counts.nextInt(250);
            probe(tray, zone, "moisture");
            line("    calibration: {dry: " + dry + ", wet: " + wet + "}");
            every();
        }
        for (Zone zone : tray.temperatureAt) {
            probe(tray, zone, "temperature");
            every();
        }
    }

    private void power(String mat) {
        line("  - id: " + mat + "-power");
        line("    measures: mat-power");
        line("    at: {mat: " + mat + "}");
        line("    message: {topic: " + prefix + "/" + mat + "/report, format: text, heating: heat, resting: rest}");
        every();
    }

    private void battery() {
        if (!Double.isNaN(draft.batteryEmptyOnDay)) {
            line("  - id: T01-battery");
            line("    measures: battery");
            line("    at: {tray: T01}");
            line("    message: {topic: " + prefix + "/T01/battery, format: json, value: /battery}");
            every();
        }
    }

    private void probe(DraftTray tray, Zone zone, String measures) {
        Cell cell = tray.cellOf(zone);
        line("  - id: " + tray.id + "-" + zone.word() + "-" + measures);
        line("    measures: " + measures);
        line("    at: {tray: " + tray.id + ", row: " + cell.row() + ", column: " + cell.column() + "}");
        line("    message: {topic: " + prefix + "/" + tray.id + "/" + zone.word() + ", format: json, value: /"
                + measures + "}");
    }

    private void roomProbes() {
        if (draft.glasshouse) {
            line("  - id: glasshouse-air");
            line("    measures: air-temperature");
            line("    at: {room: " + Draft.GLASSHOUSE + "}");
            line("    message: {topic: " + prefix + "/glasshouse/air, format: json, value: /air-temperature}");
            every();
        }
        roomProbe("air", "air-temperature", "format: json, value: /air-temperature");
        if (draft.humidityProbe) {
            roomProbe("humidity", "humidity", "format: json, value: /humidity");
        }
        if (draft.lamps != null && draft.lightProbe) {
            roomProbe("light", "light", "format: json, value: /light, lit: lit, dark: dark");
        }
    }

    private void roomProbe(String name, String measures, String format) {
        line("  - id: " + draft.room + "-" + name);
        line("    measures: " + measures);
        line("    at: {room: " + draft.room + "}");
        line("    message: {topic: " + prefix + "/" + draft.room + "/" + name + ", " + format + "}");
        every();
    }

    private void every() {
        line("    every: PT" + draft.minutes + "M");
    }

    private void line(String line) {
        text.append(line).append('\n');
    }
}
