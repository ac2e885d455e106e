package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.crop.LimitKey;
import traytender.config.site.CellBlock;
import traytender.dashboard.record.Json;
import traytender.rules.few.JudgedTray;
import traytender.rules.few.WholeTray;
import traytender.rules.view.CellEstimate;
import traytender.rules.view.EmergenceView;
import traytender.rules.view.SowingView;
import traytender.rules.view.TrayView;
import traytender.rules.view.ZoneView;

/** A tray as JSON. */
final class TrayJson {
    private static final int MOISTURE_DECIMALS = 4;
    private static final int RATE_DECIMALS = 6;
    private static final int TEMPERATURE_DECIMALS = 2;

    private TrayJson() {}

    static ObjectNode of(TrayView tray, @Nullable JudgedTray judged, @Nullable WholeTray whole) {
        ObjectNode json = Json.object();
        json.put("id", tray.id());
        json.put("room", tray.room());
        json.put("bench", tray.bench());
        json.put("mat", tray.mat());
        json.put("rows", tray.cells().rows());
        json.put("columns", tray.cells().columns());
        json.put("medium", tray.medium());
        json.put("stage", stage(tray));
        json.set("sowings", sowings(tray));
        json.set("zones", zones(tray));
        json.set("judged", judged(judged));
        json.set("whole", whole(whole));
        json.set("cells", cells(judged == null ? tray.estimates() : judged.cells()));
        json.set("lastWatered", Json.time(tray.lastWatered()));
        json.set("evenness", Json.number(tray.evenness(), 3));
        json.set("asOf", Json.time(tray.asOf()));
        return json;
    }

    /** The stage of the sowing that has come least far, since it needs the most care; null without a sowing. */
    private static @Nullable String stage(TrayView tray) {
        return tray.sowings().stream()
                .map(SowingView::stage)
                .min(Comparator.naturalOrder())
                .map(stage -> stage.word())
                .orElse(null);
    }

    private static ArrayNode sowings(TrayView tray) {
        ArrayNode sowings = Json.array();
        for (SowingView view : tray.sowings()) {
            CellBlock block = view.sowing().block();
            ObjectNode json = sowings.addObject();
            json.put("rows", block.firstRow() + "-" + block.lastRow());
            json.put("columns", block.firstColumn() + "-" + block.lastColumn());
            json.put("crop", view.sowing().crop());
            json.put("variety", view.sowing().variety());
            json.put("stage", view.stage().word());
            json.set("since", Json.time(view.stageSince()));
            json.set("emergence", emergence(view.emergence()));
            json.set("limits", limits(view));
        }
        return sowings;
    }

    private static @Nullable ObjectNode emergence(@Nullable EmergenceView view) {
        if (view == null) {
            return null;
        }
        ObjectNode json = Json.object();
        json.set("progress", Json.number(view.progress(), 3));
        json.set("from", Json.time(view.from()));
        json.set("expected", Json.time(view.expected()));
        json.set("to", Json.time(view.to()));
        json.put("look", view.look());
        json.put("overdue", view.overdue());
        return json;
    }

    private static ObjectNode limits(SowingView view) {
        ObjectNode limits = Json.object();
        for (LimitKey key : LimitKey.values()) {
            limits.set(key.word(), Json.number(view.limits().get(key), MOISTURE_DECIMALS));
        }
        return limits;
    }

    private static ArrayNode zones(TrayView tray) {
        ArrayNode zones = Json.array();
        for (ZoneView zone : tray.zones()) {
            ObjectNode json = zones.addObject();
            json.put("zone", zone.zone().word());
            json.set("moisture", Json.number(zone.moisture(), MOISTURE_DECIMALS));
            json.set("spread", Json.number(zone.spread(), MOISTURE_DECIMALS));
            json.set("rate", Json.number(zone.rate(), RATE_DECIMALS));
            json.set("rateError", Json.number(zone.rateError(), RATE_DECIMALS));
            Alert.Forecast forecast = zone.forecast();
            json.set("expected", Json.time(forecast == null ? null : forecast.expected()));
            json.set("earliest", Json.time(forecast == null ? null : forecast.earliest()));
            json.set("latest", Json.time(forecast == null ? null : forecast.latest()));
            json.set("dryLine", Json.number(zone.dryLine(), MOISTURE_DECIMALS));
            json.set("wetLine", Json.number(zone.wetLine(), MOISTURE_DECIMALS));
            json.set("temperature", Json.number(zone.temperature(), TEMPERATURE_DECIMALS));
            json.set("probes", Json.words(zone.probes()));
            json.put("trusted", zone.trusted());
        }
        return zones;
    }

    private static @Nullable ObjectNode judged(@Nullable JudgedTray judged) {
        if (judged == null) {
            return null;
        }
        ObjectNode json = Json.object();
        json.put("from", judged.from());
        json.set("moisture", Json.number(judged.moisture(), MOISTURE_DECIMALS));
        json.set("spread", Json.number(judged.spread(), MOISTURE_DECIMALS));
        json.set("dryLine", Json.number(judged.dryLine(), MOISTURE_DECIMALS));
        return json;
    }

    private static @Nullable ObjectNode whole(@Nullable WholeTray whole) {
        if (whole == null) {
            return null;
        }
        ObjectNode json = Json.object();
        json.set("moisture", Json.number(whole.moisture(), MOISTURE_DECIMALS));
        json.set("spread", Json.number(whole.spread(), MOISTURE_DECIMALS));
        json.set("byWeight", Json.number(whole.byWeight(), MOISTURE_DECIMALS));
        json.set("byProbes", Json.number(whole.byProbes(), MOISTURE_DECIMALS));
        json.put("disagree", whole.disagree());
        return json;
    }

    private static ArrayNode cells(List<CellEstimate> estimates) {
        ArrayNode cells = Json.array();
        for (CellEstimate estimate : estimates) {
            ObjectNode json = cells.addObject();
            json.put("row", estimate.cell().row());
            json.put("column", estimate.cell().column());
            json.put("zone", estimate.zone().word());
            json.set("moisture", Json.number(estimate.moisture(), 3));
            json.set("spread", Json.number(estimate.spread(), 3));
        }
        return cells;
    }
}
