package traytender.rules;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.MonthDay;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Crop;
import traytender.config.crop.Crops;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Binding;
import traytender.config.site.Broker;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.Dated;
import traytender.config.site.LampHours;
import traytender.config.site.Location;
import traytender.config.site.Mat;
import traytender.config.site.Messages;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.Sowing;
import traytender.config.site.StoreSettings;
import traytender.config.site.Tray;

/**
 * A made-up bench for rule tests: say what each probe reads, what the journal tells, then ask for the alerts. Two trays share a
 * heat mat in a propagation room, a third hardens in a cold frame. Everything is well unless told otherwise: moist, warm, lit,
 * the mat resting. Hours count from {@link #START}, midnight at the site.
 */
public final class TestBench {
    public static final Instant START = Instant.parse("2026-03-10T00:00:00Z");
    private static final long EVERY_MS = 120_000;
    private static final String CROP = "tomato";

    private final Map<String, DoubleUnaryOperator> signals = new TreeMap<>();
    private final List<JournalEntry> journal = new ArrayList<>();
    private final Map<LimitKey, Double> limits = new EnumMap<>(LimitKey.class);
    private final List<Probe> probes = new ArrayList<>();
    private final Map<String, Integer> marks = new HashMap<>();
    private Stage stage = Stage.GERMINATING;
    private boolean ownThermostat;
    private double trueLeafDegreeDays = 200;

    /** The bench with nothing amiss. */
    public TestBench() {
        usualLimits();
        for (String tray : List.of("T01", "T02")) {
            inCell(tray, "centre", 4, 8);
            inCell(tray, "edge-front", 1, 8);
            inCell(tray, "corner-back-right", 8, 16);
        }
        inCell("T03", "centre", 4, 8);
        add("propagation-air", Quantity.AIR_TEMPERATURE, new Place.InRoom("propagation"), 20);
        add("propagation-humidity", Quantity.HUMIDITY, new Place.InRoom("propagation"), 60);
        add("propagation-light", Quantity.LIGHT, new Place.InRoom("propagation"), 0);
        reads("propagation-light", hour -> hour % 24 >= 6 && hour % 24 < 22 ? 1 : 0);
        add("frame-air", Quantity.AIR_TEMPERATURE, new Place.InRoom("cold-frame"), 12);
        add("mat-1-power", Quantity.MAT_POWER, new Place.AtMat("mat-1"), 0);
        add("T01-battery", Quantity.BATTERY, new Place.AtTray("T01"), 80);
    }

    private void usualLimits() {
        limit(LimitKey.DRY_LINE, 0.45).limit(LimitKey.WET_LINE, 0.97).limit(LimitKey.WET_HOURS, 48);
        limit(LimitKey.UNEVEN_RATIO, 1.6).limit(LimitKey.LASTING_MINUTES, 10).limit(LimitKey.CLEAR_MARGIN, 0.03);
        limit(LimitKey.ROOT_COLD, 16).limit(LimitKey.ROOT_TARGET_LOW, 22).limit(LimitKey.ROOT_TARGET_HIGH, 28);
        limit(LimitKey.ROOT_HOT, 32).limit(LimitKey.ROOT_SHUT_OFF, 35).limit(LimitKey.ROOT_SPREAD, 5);
        limit(LimitKey.AIR_NIGHT_COLD, 8).limit(LimitKey.AIR_HOT, 34).limit(LimitKey.RECOVERY_DAYS, 3);
        limit(LimitKey.FEED_DAYS, 7).limit(LimitKey.HARDEN_DAYS, 7).limit(LimitKey.FROST, 0);
        limit(LimitKey.SOAK_HOURS, 24).limit(LimitKey.DAMP_AIR_HUMIDITY, 90).limit(LimitKey.DAMP_AIR_HOURS, 8);
        limit(LimitKey.DRY_HORIZON_HOURS, 6);
    }

    private void inCell(String tray, String name, int row, int column) {
        var place = new Place.InCell(tray, new Cell(row, column));
        add(tray + "-" + name + "-moisture", Quantity.MOISTURE, place, 0.75);
        add(tray + "-" + name + "-temperature", Quantity.TEMPERATURE, place, 22);
    }

    private void add(String id, Quantity quantity, Place place, double usual) {
        probes.add(new Probe(
                id,
                quantity,
                Dated.always(place),
                new Binding.Text("alder/" + id, Map.of()),
                Dated.always(new Calibration.None()),
                Duration.ofMillis(EVERY_MS)));
        signals.put(id, hour -> usual);
    }

    /** A probe reads the same all the time. */
    public TestBench reads(String probe, double value) {
        return reads(probe, hour -> value);
    }

    /** A probe's reading by hours since the start; NaN where it says nothing. */
    public TestBench reads(String probe, DoubleUnaryOperator byHour) {
        if (signals.put(probe, byHour) == null) {
            throw new IllegalArgumentException("no probe named " + probe);
        }
        return this;
    }

    /** All probes of a tray that measure this read the same. */
    public TestBench all(String tray, Quantity quantity, DoubleUnaryOperator byHour) {
        probes.stream()
                .filter(probe -> probe.measures() == quantity && probe.id().startsWith(tray + "-"))
                .forEach(probe -> reads(probe.id(), byHour));
        return this;
    }

    /** A journal entry; details as {@code key=value}. */
    public TestBench journal(double hour, String tray, EntryKind kind, String... details) {
        var detail = new HashMap<String, String>();
        for (String pair : details) {
            String[] parts = pair.split("=", 2);
            detail.put(parts[0], parts[1]);
        }
        journal.add(new JournalEntry(at(hour), tray, kind, detail, ""));
        return this;
    }

    public TestBench limit(LimitKey key, double value) {
        limits.put(key, value);
        return this;
    }

    /** The stage of all sowings at the beginning. */
    public TestBench stage(Stage value) {
        stage = value;
        return this;
    }

    public TestBench ownThermostat() {
        ownThermostat = true;
        return this;
    }

    public TestBench trueLeavesAfter(double degreeDays) {
        trueLeafDegreeDays = degreeDays;
        return this;
    }

    /** A probe's readings carry these marks. */
    public TestBench marked(String probe, int mark) {
        marks.put(probe, mark);
        return this;
    }

    /** Takes a probe away: the bench has none there. */
    public TestBench without(String probe) {
        probes.removeIf(known -> known.id().equals(probe));
        signals.remove(probe);
        return this;
    }

    /** A moisture or root-zone probe stands in another cell, or the same one again, from an hour on. */
    public TestBench puts(String probe, double hour, String tray, int row, int column) {
        probes.replaceAll(known -> known.id().equals(probe)
                ? new Probe(
                        probe,
                        known.measures(),
                        new Dated<>(Stream.concat(
                                        known.at().values().stream(),
                                        Stream.of(new Dated.From<Place>(
                                                at(hour), new Place.InCell(tray, new Cell(row, column)))))
                                .toList()),
                        known.binding(),
                        known.calibration(),
                        known.every())
                : known);
        return this;
    }

    public static Instant at(double hour) {
        return START.plusMillis(Math.round(hour * 3_600_000));
    }

    public SiteFolder folder() {
        var sowing = new Sowing(new CellBlock(1, 8, 1, 16), CROP, "Copper Lantern", null, null);
        var cells = new Cells(8, 16);
        var trays = List.of(
                tray("T01", "propagation", "mat-1", cells, stage, sowing),
                tray("T02", "propagation", "mat-1", cells, stage, sowing),
                tray("T03", "cold-frame", null, cells, Stage.HARDENING, sowing));
        var site = new Site(
                "Alder Lane Nursery",
                ZoneId.of("Europe/Dublin"),
                new Location(53.35, -6.26),
                Show.USUAL,
                List.of(
                        new Room(
                                "propagation",
                                RoomKind.INDOORS,
                                new LampHours(LocalTime.of(6, 0), LocalTime.of(22, 0))),
                        new Room("cold-frame", RoomKind.OUTDOORS, null)),
                List.of(new Mat("mat-1", "propagation", ownThermostat, null)),
                trays,
                probes,
                new Messages(new Broker.BuiltIn("127.0.0.1", 0), "traytender"),
                new StoreSettings(null, null),
                MonthDay.of(3, 12),
                LocalTime.of(7, 0));
        return new SiteFolder(Path.of("alder-lane"), site, crops());
    }

    private static Tray tray(String id, String room, @Nullable String mat, Cells cells, Stage stage, Sowing sowing) {
        return new Tray(id, room, null, mat, cells, "peat-perlite", stage, List.of(sowing), Instant.MIN);
    }

    private Crops crops() {
        var byStage = new EnumMap<Stage, Limits>(Stage.class);
        for (Stage each : Stage.values()) {
            if (each != Stage.PLANTED_OUT) {
                byStage.put(each, Limits.of(limits));
            }
        }
        return new Crops(Map.of(
                CROP, new Crop(CROP, true, 0, new Crop.Emergence(8, 90), trueLeafDegreeDays, byStage, Map.of())));
    }

    public List<JournalEntry> journal() {
        return List.copyOf(journal);
    }

    /** Every reading of so many hours, in order, with a little noise of fixed seed. */
    public List<Reading> readings(double hours) {
        var readings = new ArrayList<Reading>();
        long end = at(hours).toEpochMilli();
        int index = 0;
        for (Probe probe : probes) {
            index++;
            DoubleUnaryOperator signal = signals.get(probe.id());
            for (long time = START.toEpochMilli() + 1000L * index; time < end; time += EVERY_MS) {
                double value = signal.applyAsDouble((time - START.toEpochMilli()) / 3_600_000.0);
                if (!Double.isNaN(value)) {
                    double noisy = value + noise(probe, time);
                    int told = probe.measures().isPlausible(noisy) ? Marks.NONE : Marks.RANGE;
                    int mark = marks.getOrDefault(probe.id(), Marks.NONE) | told;
                    readings.add(new Reading(probe.id(), time, noisy, noisy, mark));
                }
            }
        }
        readings.sort(Comparator.comparingLong(Reading::timeMs).thenComparing(Reading::probe));
        return readings;
    }

    private static double noise(Probe probe, long timeMs) {
        double size = switch (probe.measures()) {
            case MOISTURE -> 0.005;
            case TEMPERATURE, AIR_TEMPERATURE -> 0.08;
            case HUMIDITY -> 0.5;
            default -> 0;
        };
        long mixed = (timeMs * 31 + probe.id().hashCode()) * 0x9E3779B97F4A7C15L;
        return size * (((mixed >>> 40) & 0xffff) / 32768.0 - 1);
    }

    public ReadingSource stored(double hours) {
        List<Reading> readings = readings(hours);
        return (fromMs, toMs, consumer) -> readings.stream()
                .filter(reading -> reading.timeMs() >= fromMs && reading.timeMs() < toMs)
                .forEach(consumer);
    }

    /** Every alert after so many hours. */
    public List<Alert> after(double hours) {
        SiteFolder folder = folder();
        return Replay.run(folder, folder.crops(), journal, stored(hours));
    }

    /** Every alert of a kind after so many hours. */
    public List<Alert> after(double hours, AlertKind kind) {
        return after(hours).stream().filter(alert -> alert.kind() == kind).toList();
    }

    /** A moisture that is filled at an hour and dries from then on, per hour. */
    public static DoubleUnaryOperator drying(double from, double perHour) {
        return hour -> Math.max(0.05, from - perHour * hour);
    }

    /** One value before an hour, another from it on. */
    public static DoubleUnaryOperator step(double atHour, double before, double after) {
        return hour -> hour < atHour ? before : after;
    }

    /** One way before an hour, another from it on. */
    public static DoubleUnaryOperator step(double atHour, DoubleUnaryOperator before, DoubleUnaryOperator after) {
        return hour -> hour < atHour ? before.applyAsDouble(hour) : after.applyAsDouble(hour);
    }
}
