package traytender.dashboard.page;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import traytender.config.alert.Alert;
import traytender.config.crop.Stage;
import traytender.config.folder.SiteFolder;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Cell;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.config.site.Sowing;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.rules.view.CellEstimate;
import traytender.rules.view.HeatView;
import traytender.rules.view.MatView;
import traytender.rules.view.ProbeHealth;
import traytender.rules.view.ProbeView;
import traytender.rules.view.RoomView;
import traytender.rules.view.SowingView;
import traytender.rules.view.TrayView;
import traytender.rules.view.ZoneView;

/** What is seen on the bench of {@link BenchFixture}, always the same: one tray that dries, its room, its mat and two probes. */
final class MadeUpBench {
    static final Instant NOW = Instant.parse("2026-03-14T12:00:00Z");

    private MadeUpBench() {}

    /** The tray as it is at a time: wetter by a percent for each hour before now. */
    static TrayView tray(SiteFolder folder, Instant time) {
        double wetter = Duration.between(time, NOW).toMinutes() / 6000.0;
        Tray tray = folder.site().trays().get(0);
        Sowing sowing = tray.sowings().get(0);
        var limits = folder.crops().get("tomato").limits(Stage.SEEDLING);
        var zone = new ZoneView(
                Zone.CORNER_FRONT_LEFT,
                0.5 + wetter,
                0.01,
                0.02,
                0.001,
                new Alert.Forecast(NOW.plusSeconds(3600), NOW.plusSeconds(3000), NOW.plusSeconds(4200)),
                0.45,
                0.95,
                Double.NaN,
                List.of("T01-moisture"),
                true);
        List<CellEstimate> estimates = new ArrayList<>();
        for (int row = 1; row <= 2; row++) {
            for (int column = 1; column <= 4; column++) {
                var cell = new Cell(row, column);
                double moisture = column == 4 ? Double.NaN : 0.3 + 0.2 * column + wetter;
                estimates.add(new CellEstimate(cell, Zone.of(cell, tray.cells()), moisture, 0.05));
            }
        }
        return new TrayView(
                "T01",
                "propagation",
                "north",
                "mat-1",
                tray.cells(),
                tray.medium(),
                List.of(new SowingView(sowing, Stage.SEEDLING, Instant.MIN, limits, null)),
                List.of(zone),
                estimates,
                NOW.minus(Duration.ofHours(20)),
                0.7,
                time);
    }

    static List<RoomView> rooms() {
        return List.of(new RoomView("propagation", 21.5, Double.NaN, 1, Double.NaN, null));
    }

    static List<MatView> mats() {
        return List.of(new MatView("mat-1", MatView.State.HEATING, true, new HeatView(9.5, 1.2, -0.4)));
    }

    static List<ProbeView> probes(Site site) {
        return List.of(
                new ProbeView(site.probes().get(0), reading("T01-moisture", NOW, 0.5), ProbeHealth.WELL),
                new ProbeView(site.probes().get(1), null, ProbeHealth.WAITING));
    }

    /** A reading every minute of the day before now, falling, the last one clamped; nothing from the air. */
    static List<Reading> readings(Probe probe, Instant from, Instant to) {
        if (!probe.id().equals("T01-moisture")) {
            return List.of();
        }
        List<Reading> readings = new ArrayList<>();
        for (int minute = 1439; minute >= 0; minute--) {
            Instant time = NOW.minusSeconds(60L * minute);
            if (!time.isBefore(from) && time.isBefore(to)) {
                readings.add(reading(probe.id(), time, 0.5 + minute / 10_000.0));
            }
        }
        return readings;
    }

    private static Reading reading(String probe, Instant time, double value) {
        return new Reading(probe, time.toEpochMilli(), value, 2100, time.equals(NOW) ? Marks.CLAMPED : Marks.NONE);
    }
}
