package traytender.rules.bench;

import java.time.Instant;
import org.apache.commons.math3.special.Erf;
import org.jspecify.annotations.Nullable;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Calibration;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.rules.view.ProbeHealth;
import traytender.rules.view.ProbeView;

/**
 * One probe's readings as they come and whether they can be believed: silent, stuck, jumping, out of range, its clock wrong.
 *
 * <p>Silence is counted in minutes in which the program listened, so that a night with the program off is nobody's silence.
 * Thresholds are our choice. Constant time a reading. <b>Not thread-safe.</b>
 */
public final class ProbeTrack {
    /** Moisture beyond these, by the calibration carried on past its ends, cannot be in a medium; our choice. */
    private static final double DRIEST = -0.12;

    private static final double WETTEST = 1.35;
    /** A moisture larger than this is a count. */
    private static final double COUNTS = 10;

    private static final int WINDOW = 30;
    /** Readings over which liveliness is learnt; our choice, longer than a slow level rests within one step. */
    private static final int LEARNS_OVER = 200;

    /**
     * Of the noise learnt, so much is taken for sure: two standard errors less. The sizes of normal differences spread by 0.76 of their mean; over
     * 200 readings, fading, that mean is known to 0.038 of itself, a little less well as successive differences share a reading.
     */
    private static final double SURE = 0.9;

    private static final double MINUTE_MS = 60_000.0;

    private final Probe probe;
    private final double everyMinutes;
    private @Nullable Reading last;
    private double value = Double.NaN;
    private long heardAtMinute;
    private double meanGapMinutes = Double.NaN;

    private long sameSinceMs;
    private int sameCount;
    private double meanDifference;
    private double meanDifferenceBefore;
    private double step = Double.POSITIVE_INFINITY;
    private int count;

    private final double[] newest = new double[5];
    private int newestCount;
    private int outliers;
    private int beyond;

    ProbeTrack(Probe probe) {
        this.probe = probe;
        this.everyMinutes = probe.every() == null ? Double.NaN : probe.every().toMillis() / MINUTE_MS;
    }

    ProbeTrack copy() {
        var copy = new ProbeTrack(probe);
        copy.last = last;
        copy.value = value;
        copy.heardAtMinute = heardAtMinute;
        copy.meanGapMinutes = meanGapMinutes;
        copy.sameSinceMs = sameSinceMs;
        copy.sameCount = sameCount;
        copy.meanDifference = meanDifference;
        copy.meanDifferenceBefore = meanDifferenceBefore;
        copy.step = step;
        copy.count = count;
        System.arraycopy(newest, 0, copy.newest, 0, newest.length);
        copy.newestCount = newestCount;
        copy.outliers = outliers;
        copy.beyond = beyond;
        return copy;
    }

    /** Takes a reading newer than the last. */
    void take(Reading reading, long listenedMinutes) {
        learnGap(reading);
        watchSameness(reading);
        value = unclamped(reading);
        boolean cannotBe = reading.has(Marks.RANGE) || reading.has(Marks.SENSOR_ERROR) || isBeyond();
        beyond = (beyond << 1 | (cannotBe ? 1 : 0)) & 0xff;
        watchJumps();
        last = reading;
        heardAtMinute = listenedMinutes;
        count++;
    }

    private void learnGap(Reading reading) {
        if (last == null) {
            return;
        }
        double gap = Math.min(120, (reading.timeMs() - last.timeMs()) / MINUTE_MS);
        meanGapMinutes = Double.isNaN(meanGapMinutes) ? gap : meanGapMinutes + 0.05 * (gap - meanGapMinutes);
    }

    private void watchSameness(Reading reading) {
        if (last != null) {
            learnLiveliness(Math.abs(reading.raw() - last.raw()));
        }
        if (last != null && reading.raw() == last.raw()) {
            sameCount++;
            return;
        }
        meanDifferenceBefore = meanDifference;
        sameSinceMs = reading.timeMs();
        sameCount = 1;
    }

    /** The step it rounds to is its smallest change; spikes and waterings count for no more than four common differences. */
    private void learnLiveliness(double difference) {
        step = difference > 0 ? Math.min(step, difference) : step;
        double most = Math.max(4 * meanDifference, step);
        double weight = Math.max(1.0 / LEARNS_OVER, 1.0 / (count + 1));
        meanDifference += weight * (Math.min(difference, most) - meanDifference);
    }

    /**
     * How likely a next reading is the same as the last where sameness is likeliest, in the middle of a step: {@code erf(q / (2 sqrt(2) s))} for
     * step q and noise s. For any resting value rounding leaves the mean difference of normal noise as it is on average, 2 s / sqrt(pi).
     */
    private double sameAgain() {
        double noise = SURE * meanDifferenceBefore * Math.sqrt(Math.PI) / 2;
        return noise == 0 || Double.isInfinite(step) ? 1 : Math.max(0.02, Erf.erf(step / (2 * Math.sqrt(2) * noise)));
    }

    /** Moisture with the line of its calibration carried on past the ends, so that a loss from above full is not lost. */
    private double unclamped(Reading reading) {
        if (probe.measures() != Quantity.MOISTURE || !reading.has(Marks.CLAMPED)) {
            return reading.value();
        }
        Calibration calibration =
                probe.calibration().at(Instant.ofEpochMilli(reading.timeMs())).orElse(new Calibration.None());
        if (calibration instanceof Calibration.DryWet ends) {
            double open = (reading.raw() - ends.dry()) / (ends.wet() - ends.dry());
            return Math.max(-0.5, Math.min(1.6, open));
        }
        return reading.value();
    }

    private boolean isBeyond() {
        return probe.measures() == Quantity.MOISTURE && (value < DRIEST || value > WETTEST);
    }

    private void watchJumps() {
        double threshold = switch (probe.measures()) {
            case MOISTURE -> 0.06;
            case TEMPERATURE, AIR_TEMPERATURE, MAT_SURFACE -> 2.5;
            case HUMIDITY -> 12;
            default -> Double.NaN;
        };
        System.arraycopy(newest, 1, newest, 0, 4);
        newest[4] = value;
        newestCount = Math.min(5, newestCount + 1);
        if (newestCount < 5) {
            return;
        }
        boolean outlier = Math.abs(newest[2] - middle()) > threshold;
        outliers = (outliers << 1 | (outlier ? 1 : 0)) & ((1 << WINDOW) - 1);
    }

    private double middle() {
        double[] sorted = newest.clone();
        java.util.Arrays.sort(sorted);
        return sorted[2];
    }

    /** How long it may be silent before it is said to be, in listened minutes: six of its intervals, an hour at least. */
    double silentAfterMinutes() {
        double every = Double.isNaN(everyMinutes) ? meanGapMinutes : everyMinutes;
        return Math.max(60, Double.isNaN(every) ? 60 : 6 * every);
    }

    /** After how many minutes its last word no longer tells what is so now. */
    double staleAfterMinutes() {
        double every = Double.isNaN(everyMinutes) ? meanGapMinutes : everyMinutes;
        return Math.max(20, Double.isNaN(every) ? 30 : 3.5 * every);
    }

    double minutesSilent(long listenedMinutes) {
        return last == null ? 0 : listenedMinutes - heardAtMinute;
    }

    boolean isSilent(long listenedMinutes) {
        return minutesSilent(listenedMinutes) >= silentAfterMinutes();
    }

    boolean isFresh(long listenedMinutes) {
        return last != null && minutesSilent(listenedMinutes) <= staleAfterMinutes();
    }

    double hoursSame() {
        return last == null ? 0 : (last.timeMs() - sameSinceMs) / (60 * MINUTE_MS);
    }

    /**
     * Whether the same raw value has come for longer than this probe's own liveliness makes likely (one in a million), or
     * for longer than any medium or air stays still.
     */
    boolean isStuck() {
        boolean judged = switch (probe.measures()) {
            case MOISTURE, TEMPERATURE, AIR_TEMPERATURE -> true;
            case HUMIDITY -> value < 98;
            default -> false;
        };
        double hours = hoursSame();
        if (!judged || hours < 1.5 || sameCount < 10) {
            return false;
        }
        // A coarse reading stays the same for hours in a still room: only a lively one gives itself away early, and a
        // temperature, which rests at night, later than a moisture count, which never does.
        boolean moist = probe.measures() == Quantity.MOISTURE;
        double again = sameAgain();
        boolean unlikely = count > 30 && -sameCount * Math.log(again) > (moist ? 14 : 20) && hours >= (moist ? 1.5 : 3);
        double longest = moist && again < 0.9 ? 8 : 11;
        return unlikely || hours >= longest;
    }

    boolean isJumping() {
        return Integer.bitCount(outliers) >= 6;
    }

    /** Whether its newest reading cannot be. */
    boolean cannotBe() {
        return (beyond & 1) != 0;
    }

    boolean isOutOfRange() {
        return Integer.bitCount(beyond) >= 4;
    }

    /** Whether it sends counts that no calibration makes moisture of: as a fraction of what a cell holds they are far beyond all probes' errors. */
    boolean isUncalibrated() {
        return last != null
                && probe.measures() == Quantity.MOISTURE
                && last.raw() > COUNTS
                && probe.calibration().at(Instant.ofEpochMilli(last.timeMs())).orElse(new Calibration.None())
                        instanceof Calibration.None;
    }

    boolean isClockWrong() {
        return last != null && last.has(Marks.CLOCK);
    }

    /** What ails it, oddness aside, which needs neighbours. */
    ProbeHealth health(long listenedMinutes) {
        if (last == null) {
            return ProbeHealth.WAITING;
        }
        if (isSilent(listenedMinutes)) {
            return ProbeHealth.SILENT;
        }
        if (isOutOfRange()) {
            return ProbeHealth.RANGE;
        }
        if (isStuck()) {
            return ProbeHealth.STUCK;
        }
        if (isJumping()) {
            return ProbeHealth.JUMPING;
        }
        return isClockWrong() ? ProbeHealth.CLOCK : ProbeHealth.WELL;
    }

    Probe probe() {
        return probe;
    }

    /** The newest value, moisture carried on past its calibration's ends; NaN before the first. */
    double value() {
        return value;
    }

    @Nullable
    Reading last() {
        return last;
    }

    long lastMs() {
        return last == null ? Long.MIN_VALUE : last.timeMs();
    }

    /** Its last word and its health. */
    ProbeView view(long listenedMinutes) {
        return new ProbeView(probe, last, health(listenedMinutes));
    }
}
