package traytender.rules.bench;

import java.time.Instant;
import java.time.LocalDate;
import java.time.MonthDay;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crop;
import traytender.config.crop.Stage;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.rules.drying.DryingFit;
import traytender.rules.drying.LightPlan;
import traytender.rules.judge.CalendarFacts;
import traytender.rules.judge.Judge;

/** Potting up, feeding, moving and planting out of one tray. <b>Not thread-safe.</b> */
final class TrayCalendar {
    private static final double DAY_MS = 86_400_000.0;
    /** Rates are believed when their error is less than this share of them; our choice. */
    private static final double RELATIVE_ERROR = 0.25;

    private final CalendarFacts facts = new CalendarFacts();
    private double degreeDays;
    private Instant countedFrom = Instant.MAX;

    TrayCalendar() {}

    TrayCalendar copy() {
        var copy = new TrayCalendar();
        copy.degreeDays = degreeDays;
        copy.countedFrom = countedFrom;
        return copy;
    }

    void ask(long minuteMs, TrayUnit unit, TrayNow here, double airC, Judge judge) {
        facts.tray = here.tray();
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
        fillPottingUp(minuteMs, unit, here, foremost, airC);
        fillWaits(minuteMs, here, potted);
        fillPlantOut(minuteMs, unit, hardening);
        judge.ask(facts);
    }

    private void fillPottingUp(long minuteMs, TrayUnit unit, TrayNow here, @Nullable SowingNow sowing, double airC) {
        facts.awaitsPottingUp = false;
        facts.hoursWetToDry = Double.NaN;
        facts.trueLeavesDue = false;
        if (sowing == null) {
            return;
        }
        Crop crop = unit.bench().crops().get(sowing.sowing().crop());
        facts.sowing = sowing.sowing().variety();
        facts.awaitsPottingUp = crop.pottedUp();
        countDegrees(unit, sowing, crop, airC);
        facts.trueLeavesDue = degreeDays >= crop.trueLeafDegreeDays();
        boolean cotyledons = sowing.stage() == Stage.SEEDLING && !facts.trueLeavesDue;
        if (!cotyledons) {
            facts.hoursWetToDry = hoursWetToDry(minuteMs, unit, here, sowing);
        }
    }

    /** Counts thermal time from emergence, when the journal tells it; before that nothing is known. */
    private void countDegrees(TrayUnit unit, SowingNow sowing, Crop crop, double airC) {
        if (sowing.stageSince().equals(Instant.MIN) || sowing.stage() != Stage.SEEDLING || crop.emergence() == null) {
            return;
        }
        if (!sowing.stageSince().equals(countedFrom)) {
            countedFrom = sowing.stageSince();
            degreeDays = 0;
        }
        double sum = 0;
        int count = 0;
        for (RootSpot root : unit.roots()) {
            if (root.isTrusted(unit.listenedMinutes())) {
                sum += root.value();
                count++;
            }
        }
        double temperature = count == 0 ? airC : sum / count;
        if (!Double.isNaN(temperature)) {
            degreeDays += Math.max(0, temperature - crop.emergence().baseC()) / 1440;
        }
    }

    private static double hoursWetToDry(long minuteMs, TrayUnit unit, TrayNow here, SowingNow sowing) {
        LightPlan light = unit.bench().light(here.room());
        double least = Double.NaN;
        for (MoistureSpot spot : unit.moisture()) {
            DryingFit fit = spot.drying().fit();
            boolean known = fit.lost() > 0.15 && spot.isTrusted(minuteMs, unit.listenedMinutes());
            double mean = known ? fit.dayRate(light) : Double.NaN;
            if (known && fit.dayRateError(light) < RELATIVE_ERROR * mean) {
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
    }
}
