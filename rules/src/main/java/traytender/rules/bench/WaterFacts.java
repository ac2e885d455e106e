package traytender.rules.bench;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.rules.drying.AirPull;
import traytender.rules.drying.DryingForecast;
import traytender.rules.drying.LightPlan;
import traytender.rules.judge.MoistureFacts;

/** Fills the facts of one moisture probe. */
final class WaterFacts {
    private static final double HOUR_MS = 3_600_000.0;

    /**
     * This near, the grower is told even when the hour is in doubt, up to so much: little dries at night, so that an evening's interval may reach to
     * the next morning. Our choice.
     */
    private static final double NEAR_HOURS = 3;

    private static final double NEAR_DOUBT_HOURS = 9;
    /** Further ahead, only when the interval is no wider than this to either side; our choice. */
    private static final double SURE_HOURS = 0.4;

    private WaterFacts() {}

    static void fill(
            MoistureSpot spot, long minuteMs, long listenedMinutes, TrayUnit unit, TrayNow here, Watering watering) {
        SowingNow sowing = Objects.requireNonNull(spot.sowing);
        Limits limits = sowing.limits();
        MoistureFacts facts = spot.facts;
        boolean dryOpen = unit.book().isOpen(AlertKind.DRY, spot.zone, null);
        facts.tray = here.tray();
        facts.probe = spot.track().probe().id();
        facts.zone = spot.zone;
        facts.sowing = sowing.sowing().variety();
        facts.trusted = spot.isTrusted(minuteMs, listenedMinutes)
                && spot.drying().filter().isBorne();
        facts.moisture = spot.level();
        facts.dryLine = limits.dryLine();
        facts.dryBelow = limits.dryLine() + (dryOpen ? limits.clearMargin() : 0);
        facts.wetLine = limits.wetLine();
        facts.wetHours = limits.wetHours();
        facts.wetIsRight = here.covered() || isSoaking(sowing, limits, minuteMs);
        spot.watchWet(minuteMs, limits.wetLine(), limits.clearMargin(), facts.wetIsRight);
        facts.hoursWet = spot.hoursWet(minuteMs);
        facts.lastingMinutes = limits.lastingMinutes();
        fillForecast(spot, facts, minuteMs, unit, here, limits);
        fillUneven(spot, facts, unit, watering, limits);
        fillMissed(spot, facts, minuteMs, watering);
    }

    private static boolean isSoaking(SowingNow sowing, Limits limits, long minuteMs) {
        Instant pottedUp = sowing.pottedUpAt();
        if (pottedUp == null
                && sowing.stage() == Stage.RECOVERING
                && !sowing.stageSince().equals(Instant.MIN)) {
            pottedUp = sowing.stageSince();
        }
        return pottedUp != null && minuteMs - pottedUp.toEpochMilli() < limits.soakHours() * HOUR_MS;
    }

    private static void fillForecast(
            MoistureSpot spot, MoistureFacts facts, long minuteMs, TrayUnit unit, TrayNow here, Limits limits) {
        facts.hoursToDry = Double.NaN;
        facts.hoursToDryLatest = Double.NaN;
        facts.forecastDoubtHours = Double.NaN;
        facts.forecast = null;
        facts.horizonHours =
                Math.max(limits.dryHorizonHours(), (unit.bench().nextRoundMs(minuteMs) - minuteMs) / HOUR_MS);
        if (!facts.trusted || !unit.watering().isSettled()) {
            spot.forgetForecast();
            return;
        }
        LightPlan light = unit.bench().light(here.room());
        DryingForecast forecast = spot.forecast(facts.dryLine, minuteMs, light, unit.pull(spot), unit.probeSpread());
        if (forecast == null) {
            return;
        }
        facts.hoursToDry = (forecast.expectedMs() - minuteMs) / HOUR_MS;
        boolean open = forecast.latestMs() == Long.MAX_VALUE;
        facts.hoursToDryLatest = open ? Double.NaN : (forecast.latestMs() - minuteMs) / HOUR_MS;
        facts.forecastDoubtHours = open ? Double.NaN : (forecast.latestMs() - forecast.earliestMs()) / (2 * HOUR_MS);
        boolean told = unit.book().isOpen(AlertKind.DRYING_SOON, spot.zone, null);
        facts.soonWithinHours = facts.horizonHours + (told ? 3 : 0);
        boolean atOnce = told || spot.drying().isAsGoodAs(facts.dryLine, unit.probeSpread());
        facts.doubtBorneHours =
                atOnce ? Double.MAX_VALUE : isNear(spot, facts, light, unit.pull(spot)) ? NEAR_DOUBT_HOURS : SURE_HOURS;
        if (!open) {
            facts.forecast = new Alert.Forecast(
                    minute(forecast.expectedMs()), minute(forecast.earliestMs()), minute(forecast.latestMs()));
        }
    }

    /** Whether it is near to the line, or its probe's reading is, which may be off: then the place will be said to be dry. */
    private static boolean isNear(MoistureSpot spot, MoistureFacts facts, LightPlan light, AirPull air) {
        double rate = spot.drying().fit().rate(light, air);
        return facts.hoursToDry <= NEAR_HOURS || facts.moisture - facts.dryLine <= NEAR_HOURS * rate;
    }

    private static Instant minute(long timeMs) {
        return Instant.ofEpochMilli(Math.floorDiv(timeMs, 60_000L) * 60_000L);
    }

    private static void fillUneven(
            MoistureSpot spot, MoistureFacts facts, TrayUnit unit, Watering watering, Limits limits) {
        List<MoistureSpot> all = unit.moisture();
        boolean isFastest = watering.fastest() >= 0 && all.get(watering.fastest()) == spot;
        boolean open = unit.book().isOpen(AlertKind.UNEVEN_DRYING, spot.zone, null);
        facts.driesFastest = isFastest && watering.slowest() >= 0;
        facts.lossRatio = facts.driesFastest ? watering.ratio() : Double.NaN;
        facts.lost = Watering.lost(spot);
        facts.unevenRatio = limits.unevenRatio();
        facts.unevenAbove = limits.unevenRatio() * (open ? 0.9 : 1);
        facts.slowestZone = facts.driesFastest ? all.get(watering.slowest()).zone : spot.zone;
    }

    private static void fillMissed(MoistureSpot spot, MoistureFacts facts, long minuteMs, Watering watering) {
        facts.minutesSinceWatering = watering.minutesSince(minuteMs);
        facts.wateringShowsMinutes = watering.showsMinutes();
        facts.rise = spot.gained;
        facts.lackedBefore = 1 - spot.before;
        facts.othersRise = spot.othersGained;
        facts.wateringMeantIt = watering.meant(spot.zone);
    }
}
