package traytender.rules.bench;

import java.time.Duration;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.TrayNow;
import traytender.config.site.Quantity;
import traytender.config.site.Zone;
import traytender.rules.judge.Judge;
import traytender.rules.judge.ProbeFacts;

/** Asks the rules about every probe that is not plainly well. */
final class ProbeWatch {
    /** Percent below which a battery wants changing; our choice. */
    static final double BATTERY_LOW = 20;

    ProbeWatch() {}

    void ask(long listenedMinutes, TrayUnit unit, TrayNow here, Judge judge) {
        for (MoistureSpot spot : unit.moisture()) {
            if (spot.placed) {
                Soaks wanders = spot.soaks().isWandering() && !spot.isLifted() ? spot.soaks() : null;
                boolean odd = spot.isLifted() || wanders != null;
                ask(spot.track(), spot.zone, odd, wanders, listenedMinutes, judge);
            }
        }
        for (RootSpot root : unit.roots()) {
            if (root.placed) {
                ask(root.track(), root.zone, root.isOdd(), listenedMinutes, judge);
            }
        }
        for (ProbeTrack other : unit.others()) {
            ask(other, Zone.TRAY, false, listenedMinutes, judge);
        }
        for (MatTrack mat : unit.mats()) {
            if (unit.isFirstOnMat() && mat.mat().equals(here.mat())) {
                ask(mat.track(), Zone.TRAY, false, listenedMinutes, judge);
            }
        }
    }

    static void ask(ProbeTrack track, Zone zone, boolean odd, long listenedMinutes, Judge judge) {
        ask(track, zone, odd, null, listenedMinutes, judge);
    }

    private static void ask(
            ProbeTrack track, Zone zone, boolean odd, @Nullable Soaks wanders, long listenedMinutes, Judge judge) {
        if (track.last() == null) {
            return;
        }
        boolean battery = track.probe().measures() == Quantity.BATTERY;
        double silent = track.minutesSilent(listenedMinutes);
        boolean stuck = track.isStuck();
        boolean well = silent < track.silentAfterMinutes()
                && !stuck
                && !track.isJumping()
                && !track.isOutOfRange()
                && !odd
                && !track.isClockWrong()
                && !(battery && track.value() < BATTERY_LOW);
        if (well) {
            return;
        }
        var facts = new ProbeFacts();
        facts.probe = track.probe().id();
        facts.measures = track.probe().measures();
        facts.zone = zone;
        facts.minutesSilent = silent;
        facts.silentAfterMinutes = track.silentAfterMinutes();
        facts.stuck = stuck;
        facts.hoursStuck =
                Duration.ofMinutes(Math.round(track.hoursSame() * 60)).toMinutes() / 60.0;
        facts.jumping = track.isJumping();
        facts.outOfRange = track.isOutOfRange();
        facts.uncalibrated = track.isUncalibrated();
        facts.odd = odd;
        if (wanders != null) {
            facts.soakedAtFirst = wanders.first();
            facts.soakedNow = wanders.last();
            facts.offeredWet = wanders.offeredWet();
        }
        facts.clockWrong = track.isClockWrong();
        facts.value = track.value();
        facts.batteryLow = battery ? BATTERY_LOW : Double.NaN;
        judge.ask(facts);
    }
}
