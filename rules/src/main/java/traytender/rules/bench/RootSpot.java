package traytender.rules.bench;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.SowingNow;
import traytender.config.reading.Reading;
import traytender.config.site.Cell;
import traytender.config.site.Probe;
import traytender.config.site.Zone;
import traytender.rules.heat.HeatModel;
import traytender.rules.heat.MatEvidence;
import traytender.rules.view.ProbeHealth;
import traytender.rules.view.ProbeView;

/**
 * One root-zone temperature probe: its median, its slope, and whether it still lies in the medium. A probe that was pulled out
 * falls to the air's temperature faster than any plug can. <b>Not thread-safe.</b>
 */
final class RootSpot {
    /** No plug loses this much in a quarter of an hour unless cold water is poured on it; our choice. */
    private static final double SUDDEN = 2.5;
    /** By how many K an hour what the air once was is forgotten: where the air fell by more, so does light medium; our choice. */
    private static final double CREST_FORGETS = 2;

    /** How far a fall may go beyond what the model of the tray foresees, K; our choice. */
    private static final double EXPLAINED_K = 1;
    /** A slow probe takes so long to come to the air's temperature; our choice. */
    private static final int SLOWLY_MINUTES = 45;

    private final ProbeTrack track;
    private final Median median;
    private final Trend trend;
    private double overAirBefore = Double.NaN;
    private double airCrest = Double.NaN;
    private boolean odd;

    boolean placed;
    /** Since when it has been at its place, by the site's file. */
    Instant since = Instant.MIN;

    Zone zone = Zone.TRAY;

    @Nullable
    Cell cell;

    @Nullable
    SowingNow sowing;

    RootSpot(Probe probe) {
        this(new ProbeTrack(probe), new Median(3), new Trend());
    }

    private RootSpot(ProbeTrack track, Median median, Trend trend) {
        this.track = track;
        this.median = median;
        this.trend = trend;
    }

    RootSpot copy() {
        var copy = new RootSpot(track.copy(), median.copy(), trend.copy());
        copy.overAirBefore = overAirBefore;
        copy.airCrest = airCrest;
        copy.odd = odd;
        copy.placed = placed;
        copy.since = since;
        copy.zone = zone;
        copy.cell = cell;
        copy.sowing = sowing;
        return copy;
    }

    void take(Reading reading, long listenedMinutes) {
        track.take(reading, listenedMinutes);
        // Not a single reading that cannot be is to be believed: of 150 C the air would draw all water in minutes.
        if (track.isOutOfRange() || track.cannotBe()) {
            return;
        }
        median.add(track.value());
        trend.add(reading.timeMs(), median.get());
    }

    /**
     * Looks whether it was pulled out or put back.
     *
     * @param model of the tray over its mat, which says how fast the medium can cool
     */
    void watch(long nowMs, double air, boolean wateredLately, HeatModel model) {
        double now = value();
        double before = trend.ago(nowMs, 20);
        if (Double.isNaN(now) || Double.isNaN(air)) {
            return;
        }
        airCrest = Double.isNaN(airCrest) ? air : Math.max(air, airCrest - CREST_FORGETS / 60);
        if (odd) {
            odd = !(now - air > 0.5 * overAirBefore);
            return;
        }
        boolean fell = before - now >= SUDDEN && before - air >= SUDDEN + 0.5;
        if (wateredLately || airCrest - air >= CREST_FORGETS) {
            return;
        }
        double longBefore = trend.ago(nowMs, SLOWLY_MINUTES);
        // Thin medium over a mat that died falls fast, too: what this tray's own cooling explains is no probe in the
        // air.
        boolean explained = model.isBelieved() && now > model.ahead(before, air, 0, 20 / 60.0) - EXPLAINED_K;
        if (fell && !explained && Math.abs(now - air) < 0.4 * (before - air)) {
            odd = true;
            overAirBefore = before - air;
        } else if (model.isBelieved()
                && MatEvidence.isInAir(model, now, air, longBefore - now, SLOWLY_MINUTES / 60.0)) {
            odd = true;
            overAirBefore = longBefore - air;
        }
    }

    boolean isOdd() {
        return odd;
    }

    ProbeTrack track() {
        return track;
    }

    /** Filtered, C; NaN before the first reading. */
    double value() {
        return median.get();
    }

    double perHour(long nowMs, int minutes) {
        return trend.perHour(nowMs, minutes);
    }

    /** Whether its next word is expected: never heard, or well and merely late. */
    boolean isWaitedFor(long listenedMinutes) {
        ProbeHealth health = track.health(listenedMinutes);
        return health == ProbeHealth.WAITING || (health == ProbeHealth.WELL && !odd);
    }

    /** Whether it can be believed now. */
    boolean isTrusted(long listenedMinutes) {
        return placed
                && !odd
                && track.isFresh(listenedMinutes)
                && !track.isOutOfRange()
                && !track.isStuck()
                && !track.isJumping();
    }

    /** Its last word and its health. */
    ProbeView view(long listenedMinutes) {
        ProbeView own = track.view(listenedMinutes);
        boolean oddly = odd && own.health() == ProbeHealth.WELL;
        return oddly ? new ProbeView(own.probe(), own.last(), ProbeHealth.ODD) : own;
    }
}
