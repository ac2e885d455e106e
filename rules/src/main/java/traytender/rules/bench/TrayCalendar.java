package traytender.rules.bench;

import java.time.Instant;
import java.time.LocalDate;
import java.time.MonthDay;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Crop;
import traytender.config.crop.Stage;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.config.site.Zone;
import traytender.rules.drying.AirPull;
import traytender.rules.drying.DryingFit;
import traytender.rules.drying.LightPlan;
import traytender.rules.emergence.ThermalTime;
import traytender.rules.judge.CalendarFacts;
import traytender.rules.judge.Judge;
import traytender.rules.night.NightAhead;
import traytender.rules.night.NightForecast;

/** Potting up, feeding, moving and planting out of one tray. <b>Not thread-safe.</b> */
final class TrayCalendar {
    private static final double DAY_MS = 86_400_000.0;
    /** Rates are believed when their error is less than this share of them; our choice. */
    private static final double RELATIVE_ERROR = 0.25;

    private final CalendarFacts facts = new CalendarFacts();
    private @Nullable ThermalTime leaves;
    private Instant countedFrom = Instant.MAX;
    private NightAhead night = new NightAhead();
    private String nightsIn = "";

    TrayCalendar() {}

    TrayCalendar copy() {
        var copy = new TrayCalendar();
        copy.leaves = leaves == null ? null : leaves.copy();
        copy.countedFrom = countedFrom;
        copy.night = night.copy();
        copy.nightsIn = nightsIn;
        return copy;
    }

    /**
     * Asks the rules at the end of a minute.
     *
     * @param dewPointC of the air of the room it stands in; NaN when unknown
     */
    void ask(long minuteMs, TrayUnit unit, TrayNow here, double dewPointC, Judge judge) {
        facts.tray = here.tray();
        facts.room = here.room();
        SowingNow foremost = null;
        SowingNow potted = null;
        SowingNow hardening = null;
        for (SowingNow sowing : here.sowings()) {
            Stage stage = sowing.stage();
            if ((stage == Stage.SEEDLING || stage == Stage.GROWING_ON) && sowing.pottedUpAt() == null) {
                foremost = sowing;
            }
            if (sowing.isWatched() && sowing.pottedUpAt() != null) {
                potted = sowing;
            }
            if (stage == Stage.HARDENING) {
                hardening = sowing;
            }
        }
        fillPottingUp(minuteMs, unit, here, foremost);
        fillWaits(minuteMs, here, potted);
        watchNights(minuteMs, unit, here, dewPointC);
        fillPlantOut(minuteMs, unit, hardening);
        judge.ask(facts);
    }

    private void fillPottingUp(long minuteMs, TrayUnit unit, TrayNow here, @Nullable SowingNow sowing) {
        facts.awaitsPottingUp = false;
        facts.toldPottingUp = false;
        facts.hoursWetToDry = Double.NaN;
        facts.trueLeavesDue = false;
        if (sowing == null) {
            return;
        }
        Crop crop = unit.bench().crops().get(sowing.sowing().crop());
        facts.sowing = sowing.sowing().variety();
        facts.awaitsPottingUp = crop.pottedUp();
        countDegrees(minuteMs, unit, sowing, crop);
        facts.trueLeavesDue = leaves != null && leaves.progress() >= 1;
        facts.toldPottingUp = unit.book().isOpen(AlertKind.POT_UP_DUE, Zone.TRAY, null);
        // Of seedlings whose age nobody tells the plugs alone can say that they have outgrown them.
        boolean young = sowing.stage() == Stage.SEEDLING && !sowing.stageSince().equals(Instant.MIN);
        if (!young || facts.trueLeavesDue) {
            facts.hoursWetToDry = hoursWetToDry(minuteMs, unit, here, sowing);
        }
    }

    /** Counts thermal time from emergence, when the journal tells it; before that nothing is known. */
    private void countDegrees(long minuteMs, TrayUnit unit, SowingNow sowing, Crop crop) {
        Crop.Emergence emergence = crop.emergence();
        boolean untold = sowing.stageSince().equals(Instant.MIN) || sowing.stage() != Stage.SEEDLING;
        if (untold || emergence == null || Double.isNaN(crop.trueLeafDegreeDays())) {
            return;
        }
        if (!sowing.stageSince().equals(countedFrom)) {
            countedFrom = sowing.stageSince();
            var toLeaves = new Crop.Emergence(emergence.baseC(), crop.trueLeafDegreeDays());
            leaves = new ThermalTime(toLeaves, countedFrom.toEpochMilli());
        }
        double celsius = TrayEmergence.warmth(unit, sowing);
        if (leaves != null && !Double.isNaN(celsius)) {
            leaves.accept(minuteMs, celsius);
        }
    }

    /** The nights of a tray that stands outdoors: how cold they were, and the one to come. */
    private void watchNights(long minuteMs, TrayUnit unit, TrayNow here, double dewPointC) {
        if (!here.room().equals(nightsIn)) {
            nightsIn = here.room();
            night = new NightAhead();
        }
        if (unit.bench().isOutdoors(here.room())) {
            SunTimes sun = unit.bench().sun();
            night.minute(minuteMs, unit.airC(), dewPointC, sun.sunsetMs(minuteMs), sun.sunriseMs(minuteMs));
        }
    }

    private static double hoursWetToDry(long minuteMs, TrayUnit unit, TrayNow here, SowingNow sowing) {
        LightPlan light = unit.bench().light(here.room());
        double least = Double.NaN;
        for (MoistureSpot spot : unit.moisture()) {
            DryingFit fit = spot.drying().fit();
            boolean known = fit.lost() > 0.15 && spot.isTrusted(minuteMs, unit.listenedMinutes());
            AirPull air = unit.pull(spot);
            double mean = known ? fit.dayRate(light, air) : Double.NaN;
            if (known && fit.dayRateError(light, air) < RELATIVE_ERROR * mean) {
                double hours = (1 - sowing.limits().dryLine()) / mean;
                least = Double.isNaN(least) ? hours : Math.min(least, hours);
            }
        }
        return least;
    }

    private void fillWaits(long minuteMs, TrayNow here, @Nullable SowingNow sowing) {
        facts.movedSincePottingUp = false;
        facts.fedSincePottingUp = false;
        facts.daysSincePottingUp = Double.NaN;
        if (sowing == null || sowing.pottedUpAt() == null) {
            return;
        }
        Instant pottedUp = sowing.pottedUpAt();
        facts.daysSincePottingUp = (minuteMs - pottedUp.toEpochMilli()) / DAY_MS;
        facts.recoveryDays = sowing.limits().recoveryDays();
        facts.feedDays = sowing.limits().feedDays();
        Instant moved = here.movedAt();
        if (moved != null && moved.isAfter(pottedUp)) {
            facts.movedSincePottingUp = true;
            facts.movedAfterDays = (moved.toEpochMilli() - pottedUp.toEpochMilli()) / DAY_MS;
        }
        Instant fed = sowing.fedAt();
        if (fed != null && fed.isAfter(pottedUp)) {
            facts.fedSincePottingUp = true;
            facts.fedAfterDays = (fed.toEpochMilli() - pottedUp.toEpochMilli()) / DAY_MS;
        }
    }

    private void fillPlantOut(long minuteMs, TrayUnit unit, @Nullable SowingNow sowing) {
        facts.daysHardened = Double.NaN;
        facts.daysPastPlantOut = Double.NaN;
        facts.lowestAhead = Double.NaN;
        facts.coldestNight = Double.NaN;
        MonthDay lastFrost = unit.bench().site().lastFrost();
        if (sowing == null || sowing.stageSince().equals(Instant.MIN) || lastFrost == null) {
            return;
        }
        facts.sowing = sowing.sowing().variety();
        facts.daysHardened = (minuteMs - sowing.stageSince().toEpochMilli()) / DAY_MS;
        facts.hardenDays = sowing.limits().hardenDays();
        LocalDate today = Instant.ofEpochMilli(minuteMs)
                .atZone(unit.bench().site().timezone())
                .toLocalDate();
        double weeks = unit.bench().crops().get(sowing.sowing().crop()).plantOutWeeks();
        LocalDate from = lastFrost.atYear(today.getYear()).plusDays(Math.round(weeks * 7));
        facts.daysPastPlantOut = today.toEpochDay() - from.toEpochDay();
        facts.lowestAhead = night.expected();
        facts.frost = sowing.limits().frost();
        facts.airNightCold = sowing.limits().airNightCold();
        facts.rootCold = sowing.limits().rootCold();
        facts.medium = TrayEmergence.warmth(unit, sowing);
        long since = sowing.stageSince().toEpochMilli();
        night.passed().stream()
                .filter(passed -> passed.sunsetMs() >= since)
                .mapToDouble(NightForecast::came)
                .min()
                .ifPresent(coldest -> facts.coldestNight = coldest);
    }
}
