package traytender.rules.bench;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.config.site.Mat;
import traytender.config.site.Zone;
import traytender.rules.heat.HeatModel;
import traytender.rules.heat.MatEvidence;
import traytender.rules.judge.Judge;
import traytender.rules.judge.TrayFacts;
import traytender.rules.view.HeatView;
import traytender.rules.view.MatView;

/** Root zone and mat of one tray: what the heat rules compare. <b>Not thread-safe.</b> */
final class TrayHeat {
    /** How far a temperature must come back past its line to close; our choice, about a cheap probe's step. */
    private static final double MARGIN_C = 0.5;

    /** Gravest first: what the grower is told while several reasons hold. */
    private static final List<ShutOffReason> BY_GRAVITY = List.of(
            ShutOffReason.TOO_HOT,
            ShutOffReason.NO_PROBE,
            ShutOffReason.EMERGED,
            ShutOffReason.STAGE,
            ShutOffReason.ROOM_WARM,
            ShutOffReason.DRYING_PATTERN);

    /** A mat that has rested for longer is not asked for heat any more; our choice. */
    private static final double ASKED_MINUTES = 90;
    /** So much over root-cold it matters no more whether the mat heats; our choice. */
    private static final double WARM_ENOUGH_K = 3;

    private double minutesRoomWarm;
    private MatWatch watch = new MatWatch();

    private final TrayFacts facts = new TrayFacts();

    TrayHeat() {}

    TrayHeat copy() {
        var copy = new TrayHeat();
        copy.minutesRoomWarm = minutesRoomWarm;
        copy.watch = watch.copy();
        return copy;
    }

    /** Fills the facts of this minute and asks the rules. */
    void ask(long minuteMs, long listenedMinutes, TrayUnit unit, TrayNow here, double airC, Judge judge) {
        facts.tray = here.tray();
        facts.room = here.room();
        facts.mat = here.mat();
        facts.roomAir = airC;
        fillLimits(here);
        fillRoots(minuteMs, listenedMinutes, unit);
        fillMat(minuteMs, listenedMinutes, unit, here, airC);
        fillStages(unit, here, minuteMs);
        fillMargins(unit);
        judge.ask(facts);
    }

    TrayFacts facts() {
        return facts;
    }

    /** The tray over its mat. */
    HeatModel model() {
        return watch.model();
    }

    /** What the mat seems to do by the temperatures, for want of a power probe. */
    MatView inferred(String mat, @Nullable TrayNow here) {
        boolean mine = here != null && mat.equals(here.mat());
        if (!mine || Double.isNaN(facts.rootMean) || Double.isNaN(facts.roomAir)) {
            return new MatView(mat, MatView.State.UNKNOWN, true, null);
        }
        Boolean heats = watch.heats(facts.roomAir);
        MatView.State state =
                heats == null ? MatView.State.UNKNOWN : heats ? MatView.State.HEATING : MatView.State.RESTING;
        return new MatView(mat, state, true, shown());
    }

    /** How the mat warms this tray; null until that has shown. */
    @Nullable
    HeatView shown() {
        HeatModel model = watch.model();
        return model.isBelieved() ? new HeatView(model.gain(), model.timeConstantHours(), model.restOverAir()) : null;
    }

    private void fillLimits(TrayNow here) {
        facts.lastingMinutes = 0;
        facts.rootSpread = Double.MAX_VALUE;
        facts.rootTargetLow = Double.NEGATIVE_INFINITY;
        facts.rootCold = Double.NEGATIVE_INFINITY;
        facts.rootShutOff = Double.POSITIVE_INFINITY;
        for (SowingNow sowing : here.sowings()) {
            if (!sowing.isWatched()) {
                continue;
            }
            Limits limits = sowing.limits();
            facts.lastingMinutes = Math.max(facts.lastingMinutes, limits.lastingMinutes());
            facts.rootSpread = Math.min(facts.rootSpread, limits.rootSpread());
            facts.rootTargetLow = Math.max(facts.rootTargetLow, limits.rootTargetLow());
            facts.rootShutOff = Math.min(facts.rootShutOff, limits.rootShutOff());
            if (limits.rootCold() > facts.rootCold) {
                facts.rootCold = limits.rootCold();
                facts.sowing = sowing.sowing().variety();
            }
        }
    }

    private void fillRoots(long minuteMs, long listenedMinutes, TrayUnit unit) {
        List<String> ids = new ArrayList<>();
        double sum = 0;
        double slopes = 0;
        int sloped = 0;
        double centre = 0;
        int centres = 0;
        double edge = 0;
        int edges = 0;
        double over = Double.NEGATIVE_INFINITY;
        facts.hasRootProbe = false;
        facts.hottest = Double.NaN;
        facts.rootColdest = Double.NaN;
        facts.rootHot = Double.NaN;
        boolean waiting = false;
        for (RootSpot root : unit.roots()) {
            if (!root.placed) {
                continue;
            }
            facts.hasRootProbe = true;
            waiting |= root.isWaitedFor(listenedMinutes);
            if (!root.isTrusted(listenedMinutes) || root.sowing == null) {
                continue;
            }
            double value = root.value();
            ids.add(root.track().probe().id());
            sum += value;
            facts.rootColdest = Double.isNaN(facts.rootColdest) ? value : Math.min(facts.rootColdest, value);
            double slope = root.perHour(minuteMs, 60);
            if (!Double.isNaN(slope)) {
                slopes += slope;
                sloped++;
            }
            double hot = root.sowing.limits().rootHot();
            if (value - hot > over) {
                over = value - hot;
                facts.hottest = value;
                facts.rootHot = hot;
                facts.hottestZone = root.zone;
                facts.hottestProbe = root.track().probe().id();
                facts.rootShutOff = root.sowing.limits().rootShutOff();
            }
            if (root.zone == Zone.CENTRE) {
                centre += value;
                centres++;
            } else if (root.zone.isEdge() || root.zone.isCorner()) {
                edge += value;
                edges++;
            }
        }
        facts.rootProbes = ids;
        facts.rootMean = ids.isEmpty() ? Double.NaN : sum / ids.size();
        facts.rootPerHour = sloped == 0 ? Double.NaN : slopes / sloped;
        facts.centreOverEdge = centres == 0 || edges == 0 ? Double.NaN : centre / centres - edge / edges;
        facts.noRootProbe = ids.isEmpty() && !waiting;
    }

    private void fillMat(long minuteMs, long listenedMinutes, TrayUnit unit, TrayNow here, double airC) {
        MatTrack power = power(unit, here.mat(), listenedMinutes);
        boolean toldOff = toldOff(unit, minuteMs);
        facts.matKnown = power != null;
        facts.neighbours = unit.neighbours();
        facts.sunless = unit.bench().isSunless(here.room(), minuteMs);
        if (here.mat() == null) {
            watch.leave();
        } else {
            watch.look(minuteMs, facts.rootProbes, facts.rootMean, airC, power, toldOff, facts.sunless);
        }
        facts.matInUse = watch.isInUse(minuteMs, power) || isPresumedUsed(unit.bench(), here, power, toldOff);
        facts.hoursHeldSunless = watch.hoursHeldSunless();
        facts.matResting = power != null && !power.isHeating();
        facts.minutesHeating = power != null && power.isHeating() ? power.minutesSince(minuteMs) : 0;
        facts.minutesOff = power == null || power.isHeating() ? 0 : power.minutesSince(minuteMs);
        facts.minutesHeatLost = toldOff ? 0 : watch.minutesHeatLost();
        facts.night = unit.bench().sun().isNight(minuteMs);
        facts.heatedOverAir = watch.heatedOverAir(facts.night);
        if (toldOff) {
            JournalEntry off = unit.bench().newest(here.tray(), EntryKind.MAT_OFF, minuteMs);
            double minutes = off == null ? 0 : (minuteMs - off.time().toEpochMilli()) / 60_000.0;
            facts.minutesOff = Math.max(facts.minutesOff, minutes);
        }
        fillEvidence(unit, airC, toldOff);
        boolean warm = airC >= facts.rootTargetLow + MARGIN_C;
        minutesRoomWarm = warm ? minutesRoomWarm + 1 : 0;
        facts.hoursRoomWarm = minutesRoomWarm / 60;
        facts.ownThermostat = here.mat() != null
                && unit.bench().site().mat(here.mat()).map(Mat::ownThermostat).orElse(false);
    }

    /** Seeds germinate over a mat of which no probe tells anything: it is there to be used. */
    private boolean isPresumedUsed(Bench bench, TrayNow here, @Nullable MatTrack power, boolean toldOff) {
        return power == null
                && !toldOff
                && here.mat() != null
                && !facts.hasRootProbe
                && facts.neighbours.stream().noneMatch(bench::hasRootProbe)
                && here.sowings().stream().anyMatch(sowing -> sowing.stage() == Stage.GERMINATING);
    }

    /** What the temperatures themselves say of the mat, by the model fitted to this tray. */
    private void fillEvidence(TrayUnit unit, double airC, boolean toldOff) {
        HeatModel model = watch.model();
        double share = Math.max(0, model.inferredHeat());
        facts.heatSeen = MatEvidence.isHeatSeen(model, airC, facts.sunless);
        facts.heatsOn = MatEvidence.isNotStopping(model, airC, facts.minutesOff, facts.sunless);
        facts.comesTo = model.steady(airC, Math.min(1, share));
        facts.hoursToHot = model.hoursTo(facts.rootHot, facts.hottest, airC + facts.hottest - facts.rootMean, share);
        facts.notStoppingTold = unit.book().isOpen(AlertKind.MAT_NOT_STOPPING, Zone.TRAY, null);
        facts.stillHeatsOn =
                facts.notStoppingTold && facts.minutesOff > 0 && MatEvidence.mayStillHeat(model, airC, facts.sunless);
        boolean asked = facts.matKnown ? facts.minutesHeating > 0 || facts.minutesOff < ASKED_MINUTES : !toldOff;
        facts.stillNoHeat = unit.book().isOpen(AlertKind.MAT_NOT_HEATING, Zone.TRAY, null)
                && asked
                && !facts.heatSeen
                && facts.rootMean < facts.rootCold + WARM_ENOUGH_K;
    }

    private static @Nullable MatTrack power(TrayUnit unit, @Nullable String mat, long listenedMinutes) {
        for (MatTrack track : unit.mats()) {
            if (track.mat().equals(mat) && track.isKnown(listenedMinutes)) {
                return track;
            }
        }
        return null;
    }

    private static boolean toldOff(TrayUnit unit, long minuteMs) {
        JournalEntry off = unit.bench().newest(unit.place(), EntryKind.MAT_OFF, minuteMs);
        JournalEntry on = unit.bench().newest(unit.place(), EntryKind.MAT_ON, minuteMs);
        return off != null && (on == null || on.time().isBefore(off.time()));
    }

    private void fillStages(TrayUnit unit, TrayNow here, long minuteMs) {
        boolean any = false;
        boolean past = true;
        boolean emerged = false;
        for (SowingNow sowing : here.sowings()) {
            if (sowing.isWatched()) {
                any = true;
                past &= sowing.stage() != Stage.GERMINATING;
                emerged |=
                        sowing.stage() == Stage.SEEDLING && !sowing.stageSince().equals(java.time.Instant.MIN);
            }
        }
        facts.pastGermination = any && past;
        facts.emerged = emerged && unit.bench().newest(here.tray(), EntryKind.EMERGED, minuteMs) != null;
        int fastest = unit.watering().fastest();
        boolean inside = fastest >= 0
                && (unit.moisture().get(fastest).zone == Zone.CENTRE
                        || unit.moisture().get(fastest).zone == Zone.BETWEEN);
        facts.driesOverMat = inside
                && unit.book().isOpen(AlertKind.UNEVEN_DRYING, unit.moisture().get(fastest).zone, null);
    }

    private void fillMargins(TrayUnit unit) {
        var book = unit.book();
        facts.roomWarmTold = book.isTold(AlertKind.MAT_SHUT_OFF, Zone.TRAY, ShutOffReason.ROOM_WARM);
        facts.gravestTold = 0;
        for (int i = BY_GRAVITY.size() - 1; i >= 0; i--) {
            if (book.isTold(AlertKind.MAT_SHUT_OFF, Zone.TRAY, BY_GRAVITY.get(i))) {
                facts.gravestTold = BY_GRAVITY.size() - i;
            }
        }
        facts.hotFrom = facts.rootHot - (book.isOpen(AlertKind.CENTRE_OVERHEATING, Zone.TRAY, null) ? MARGIN_C : 0);
        facts.shutOffFrom = facts.rootShutOff
                - (book.isOpen(AlertKind.MAT_SHUT_OFF, Zone.TRAY, ShutOffReason.TOO_HOT) ? MARGIN_C : 0);
        facts.coldBelow = facts.rootCold + (book.isOpen(AlertKind.ROOT_COLD, Zone.TRAY, null) ? MARGIN_C : 0);
        facts.spreadFrom = facts.rootSpread - (book.isOpen(AlertKind.UNEVEN_HEAT, Zone.TRAY, null) ? MARGIN_C : 0);
    }
}
