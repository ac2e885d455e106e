package traytender.rules.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.journal.TrayNow;
import traytender.config.site.Cells;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.rules.cells.CellField;
import traytender.rules.cells.ProbeLevel;
import traytender.rules.drying.AirPull;
import traytender.rules.drying.DryingFit;
import traytender.rules.drying.LightPlan;
import traytender.rules.view.CellEstimate;
import traytender.rules.view.SowingView;
import traytender.rules.view.TrayView;
import traytender.rules.view.ZoneView;

/** Makes a tray's view from its unit. */
final class TrayViews {
    /** What two cheap probes may differ by in the same medium; our choice. */
    private static final double PROBE_SPREAD = 0.01;

    private TrayViews() {}

    static TrayView of(TrayUnit unit, @Nullable Instant asOf) {
        Tray tray = unit.bench().site().tray(unit.place()).orElseThrow();
        TrayNow now = unit.now();
        long nowMs = asOf == null ? Long.MIN_VALUE : asOf.toEpochMilli();
        Cells cells = now == null ? tray.cells() : now.cells();
        List<SowingView> sowings = now == null
                ? List.of()
                : now.sowings().stream()
                        .map(sowing -> new SowingView(
                                sowing.sowing(),
                                sowing.stage(),
                                sowing.stageSince(),
                                sowing.limits(),
                                unit.emergence().view(sowing)))
                        .toList();
        long watered = unit.watering().startMs();
        return new TrayView(
                tray.id(),
                now == null ? tray.room() : now.room(),
                tray.bench(),
                now == null ? tray.mat() : now.mat(),
                cells,
                tray.medium(),
                sowings,
                now == null || asOf == null ? List.of() : zones(unit, now, nowMs),
                estimates(unit, now, cells, nowMs),
                watered == Long.MIN_VALUE ? null : Instant.ofEpochMilli(watered),
                unit.watering().evenness(unit.moisture()),
                asOf);
    }

    /** Every cell from the probes that are well: smooth, pinned at them, aware of border and mat. */
    private static List<CellEstimate> estimates(TrayUnit unit, @Nullable TrayNow now, Cells cells, long nowMs) {
        var levels = new ArrayList<ProbeLevel>();
        for (MoistureSpot spot : unit.moisture()) {
            if (spot.cell != null && spot.isTrusted(nowMs, unit.listenedMinutes())) {
                levels.add(new ProbeLevel(spot.cell, spot.level(), spread(spot)));
            }
        }
        return CellField.moisture(cells, now != null && now.mat() != null, levels)
                .estimates();
    }

    private static List<ZoneView> zones(TrayUnit unit, TrayNow now, long nowMs) {
        Map<Zone, List<MoistureSpot>> wet = new EnumMap<>(Zone.class);
        Map<Zone, List<RootSpot>> warm = new EnumMap<>(Zone.class);
        for (MoistureSpot spot : unit.moisture()) {
            if (spot.placed) {
                wet.computeIfAbsent(spot.zone, zone -> new ArrayList<>()).add(spot);
            }
        }
        for (RootSpot root : unit.roots()) {
            if (root.placed) {
                warm.computeIfAbsent(root.zone, zone -> new ArrayList<>()).add(root);
            }
        }
        var zones = new ArrayList<ZoneView>();
        for (Zone zone : Zone.values()) {
            List<MoistureSpot> spots = wet.getOrDefault(zone, List.of());
            List<RootSpot> roots = warm.getOrDefault(zone, List.of());
            if (!spots.isEmpty() || !roots.isEmpty()) {
                zones.add(zone(zone, spots, roots, unit, now, nowMs));
            }
        }
        return zones;
    }

    private static ZoneView zone(
            Zone zone, List<MoistureSpot> spots, List<RootSpot> roots, TrayUnit unit, TrayNow now, long nowMs) {
        MoistureSpot driest = null;
        boolean trusted = true;
        double dryLine = Double.NaN;
        double wetLine = Double.NaN;
        var ids = new ArrayList<String>();
        for (MoistureSpot spot : spots) {
            ids.add(spot.track().probe().id());
            trusted &= spot.track().last() == null || spot.isTrusted(nowMs, unit.listenedMinutes());
            if (driest == null || !(spot.level() >= driest.level())) {
                driest = spot;
            }
            if (spot.sowing != null) {
                double dry = spot.sowing.limits().dryLine();
                double wetter = spot.sowing.limits().wetLine();
                dryLine = Double.isNaN(dryLine) ? dry : Math.max(dryLine, dry);
                wetLine = Double.isNaN(wetLine) ? wetter : Math.min(wetLine, wetter);
            }
        }
        double warmth = 0;
        int warm = 0;
        for (RootSpot root : roots) {
            ids.add(root.track().probe().id());
            boolean well = root.isTrusted(unit.listenedMinutes());
            trusted &= well || root.track().last() == null;
            if (well) {
                warmth += root.value();
                warm++;
            }
        }
        LightPlan light = unit.bench().light(now.room());
        AirPull air = driest == null ? AirPull.USUAL : unit.pull(driest);
        DryingFit fit = driest == null ? null : driest.drying().fit();
        boolean known = fit != null && fit.used() >= 10;
        return new ZoneView(
                zone,
                driest == null ? Double.NaN : driest.level(),
                driest == null ? Double.NaN : spread(driest),
                fit != null && known ? fit.rate(light, air) : Double.NaN,
                fit != null && known ? fit.rateError(light, air) : Double.NaN,
                driest == null || !trusted ? null : forecast(driest, dryLine, unit, now, nowMs),
                dryLine,
                wetLine,
                warm == 0 ? Double.NaN : warmth / warm,
                ids,
                trusted);
    }

    /** Standard deviation of a place's moisture: the filter's own doubt, and what the probe itself may be off by. */
    private static double spread(MoistureSpot spot) {
        return Math.hypot(spot.drying().filter().spread(), PROBE_SPREAD);
    }

    private static Alert.@Nullable Forecast forecast(
            MoistureSpot spot, double dryLine, TrayUnit unit, TrayNow now, long nowMs) {
        if (Double.isNaN(dryLine)
                || spot.track().last() == null
                || !unit.watering().isSettled()) {
            return null;
        }
        var forecast = spot.drying()
                .forecast(dryLine, nowMs, unit.bench().light(now.room()), unit.pull(spot), unit.probeSpread());
        if (forecast == null || forecast.latestMs() == Long.MAX_VALUE) {
            return null;
        }
        return new Alert.Forecast(
                Instant.ofEpochMilli(forecast.expectedMs()),
                Instant.ofEpochMilli(forecast.earliestMs()),
                Instant.ofEpochMilli(forecast.latestMs()));
    }
}
