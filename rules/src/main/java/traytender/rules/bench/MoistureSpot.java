package traytender.rules.bench;

import java.time.Instant;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import traytender.config.journal.SowingNow;
import traytender.config.reading.Reading;
import traytender.config.site.Cell;
import traytender.config.site.Probe;
import traytender.config.site.Zone;
import traytender.rules.drying.AirPull;
import traytender.rules.drying.DryingForecast;
import traytender.rules.drying.LightPlan;
import traytender.rules.drying.ProbeDrying;
import traytender.rules.drying.WateringDetector.Step;
import traytender.rules.judge.MoistureFacts;
import traytender.rules.view.ProbeHealth;
import traytender.rules.view.ProbeView;

/**
 * One moisture probe in its cell: level, waterings and drying, time above the wet line, and whether it still is in the medium.
 * <b>Not thread-safe.</b>
 */
final class MoistureSpot {
    /** No plant drinks this much at once: a probe that falls so was lifted; our choice. */
    private static final double LIFTED = 0.12;

    private static final long NEAR_MS = 10 * 3_600_000L;
    private static final long BUCKET_MS = 300_000;
    private static final int BUCKETS = 36;

    private final ProbeTrack track;
    private final ProbeDrying drying;
    private final Soaks soaks;
    private final double[] levels = new double[BUCKETS];
    private final long[] names = new long[BUCKETS];
    private double levelBeforeLift = Double.NaN;
    private long troubleUntilMs = Long.MIN_VALUE;
    private long wetSinceMs = Long.MIN_VALUE;

    /** Level when the tray's last watering began; NaN when unknown. */
    double before = Double.NaN;
    /** Highest gain by the tray's last watering. */
    double gained;
    /** The largest gain of another zone by it; NaN when unknown, or when the tray as a whole was not watered. */
    double othersGained = Double.NaN;
    /** Level from which drying counts; NaN while a watering settles. */
    double base = Double.NaN;

    boolean placed;
    /** Since when it has been at its place, by the site's file. */
    Instant since = Instant.MIN;

    Zone zone = Zone.TRAY;

    @Nullable
    Cell cell;

    @Nullable
    SowingNow sowing;
    /** Index of the root probe whose temperature is taken for this place; -1 for none. */
    int root = -1;

    private @Nullable DryingForecast forecast;
    private long forecastMs = Long.MIN_VALUE;
    private double forecastLine = Double.NaN;

    final MoistureFacts facts = new MoistureFacts();

    MoistureSpot(Probe probe) {
        this(new ProbeTrack(probe), new ProbeDrying(), new Soaks());
        Arrays.fill(names, Long.MIN_VALUE);
    }

    private MoistureSpot(ProbeTrack track, ProbeDrying drying, Soaks soaks) {
        this.track = track;
        this.drying = drying;
        this.soaks = soaks;
    }

    MoistureSpot copy() {
        var copy = new MoistureSpot(track.copy(), drying.copy(), soaks.copy());
        System.arraycopy(levels, 0, copy.levels, 0, BUCKETS);
        System.arraycopy(names, 0, copy.names, 0, BUCKETS);
        copy.levelBeforeLift = levelBeforeLift;
        copy.troubleUntilMs = troubleUntilMs;
        copy.wetSinceMs = wetSinceMs;
        copy.before = before;
        copy.gained = gained;
        copy.othersGained = othersGained;
        copy.base = base;
        copy.placed = placed;
        copy.since = since;
        copy.zone = zone;
        copy.cell = cell;
        copy.sowing = sowing;
        copy.root = root;
        copy.forecast = forecast;
        copy.forecastMs = forecastMs;
        copy.forecastLine = forecastLine;
        return copy;
    }

    /** Takes a reading; says what it meant for the waterings. */
    Step take(Reading reading, long listenedMinutes, double temperature, LightPlan light, AirPull air) {
        track.take(reading, listenedMinutes);
        if (track.isOutOfRange()) {
            return Step.NONE;
        }
        Step step = drying.accept(reading.timeMs(), track.value(), temperature, light, air);
        watchLift(step);
        long bucket = Math.floorDiv(reading.timeMs(), BUCKET_MS);
        int slot = (int) Math.floorMod(bucket, (long) BUCKETS);
        names[slot] = bucket;
        levels[slot] = level();
        return step;
    }

    private void watchLift(Step step) {
        double level = level();
        if (step == Step.FELL) {
            double fell = drying.filter().levelBeforeJump();
            if (fell - level >= LIFTED && !isLifted()) {
                levelBeforeLift = fell;
            }
        } else if (isLifted() && level > levelBeforeLift - 0.08) {
            levelBeforeLift = Double.NaN;
        }
    }

    /** Forgets that it was lifted: the grower did something to the tray that explains the fall. */
    void explainFall() {
        levelBeforeLift = Double.NaN;
    }

    boolean isLifted() {
        return !Double.isNaN(levelBeforeLift);
    }

    /** Filtered level; NaN before the first reading. */
    double level() {
        return drying.filter().level();
    }

    /** The level at a time in the last three hours, or the nearest before it; NaN when none was kept. */
    double levelAt(long timeMs) {
        long bucket = Math.floorDiv(timeMs, BUCKET_MS);
        for (int back = 0; back < 8; back++) {
            int slot = (int) Math.floorMod(bucket - back, (long) BUCKETS);
            if (names[slot] == bucket - back) {
                return levels[slot];
            }
        }
        return Double.NaN;
    }

    /**
     * When it reaches a line, the next watering thought away; null when not within reach. Looking ahead costs a hundred times
     * what a minute does, so the answer is kept for five minutes when the line is near, for a quarter of an hour when not.
     */
    @Nullable
    DryingForecast forecast(double line, long minuteMs, LightPlan light, AirPull air, double spread) {
        boolean near = forecast != null && forecast.expectedMs() - minuteMs < NEAR_MS;
        long keptMs = near ? 5 * 60_000L : 15 * 60_000L;
        if (line != forecastLine || forecastMs == Long.MIN_VALUE || minuteMs - forecastMs >= keptMs) {
            forecast = drying.forecast(line, minuteMs, light, air, spread);
            forecastMs = minuteMs;
            forecastLine = line;
        }
        return forecast;
    }

    /** Forgets the forecast: the place was watered. */
    void forgetForecast() {
        forecastMs = Long.MIN_VALUE;
    }

    /** Counts the time above the wet line; wet that is right counts for nothing. */
    void watchWet(long nowMs, double wetLine, double clearMargin, boolean wetIsRight) {
        double level = level();
        if (Double.isNaN(level) || wetIsRight || level < wetLine - clearMargin) {
            wetSinceMs = Long.MIN_VALUE;
        } else if (level > wetLine && wetSinceMs == Long.MIN_VALUE) {
            wetSinceMs = nowMs;
        }
    }

    double hoursWet(long nowMs) {
        return wetSinceMs == Long.MIN_VALUE ? 0 : (nowMs - wetSinceMs) / 3_600_000.0;
    }

    /** Keeps in mind that it was in trouble, for half an hour after. */
    void watchTrouble(long nowMs, long listenedMinutes) {
        boolean trouble = isLifted()
                || track.isOutOfRange()
                || track.isStuck()
                || track.isJumping()
                || track.isSilent(listenedMinutes);
        if (trouble) {
            troubleUntilMs = nowMs + 1_800_000;
        }
        if (trouble && !track.isSilent(listenedMinutes)) {
            // What it said was not so: nothing is to be compared with it before the next watering.
            base = Double.NaN;
            before = Double.NaN;
        }
    }

    boolean isInTrouble(long nowMs) {
        return nowMs < troubleUntilMs;
    }

    boolean isTrusted(long nowMs, long listenedMinutes) {
        return placed && !isInTrouble(nowMs) && track.isFresh(listenedMinutes) && !Double.isNaN(level());
    }

    /** What it reads after waterings. */
    Soaks soaks() {
        return soaks;
    }

    ProbeTrack track() {
        return track;
    }

    ProbeDrying drying() {
        return drying;
    }

    /** Its last word and its health. */
    ProbeView view(long listenedMinutes) {
        ProbeView own = track.view(listenedMinutes);
        boolean wanders = soaks.isWandering();
        boolean oddly = (isLifted() || wanders) && own.health() == ProbeHealth.WELL;
        double offeredWet = wanders ? soaks.offeredWet() : Double.NaN;
        return new ProbeView(own.probe(), own.last(), oddly ? ProbeHealth.ODD : own.health(), offeredWet);
    }
}
