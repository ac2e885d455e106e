package traytender.rules.heat;

import java.util.Arrays;

/**
 * The temperature of one place of a tray over its mat, as a first-order model fitted while it runs:
 *
 * <pre>
 *   dT/dt = (T_air - T) / tau + b u + c
 * </pre>
 *
 * with T the root zone, u the share of time the mat heats (reaching it through the mat's own lag: of four, the one that foresees
 * best), tau the time constant, b the mat's pull and c what is left: the cooling by evaporation, or the sun. At rest the place
 * comes to T_air + c tau, with the mat on it comes b tau higher.
 *
 * <p>Recursive least squares that forgets, on blocks of {@value #BLOCK_MINUTES} minutes, begun from values usual for a plug tray
 * on a bench (our choice), kept within bounds. Where no power probe tells u, it is inferred from what the temperature does:
 * then the model's numbers are not learnt, only u is. Holds for root zones from 0 to 50 C and still air.
 *
 * <p>Temperatures in C, differences in K, times in h. Causal, deterministic, constant time a reading. <b>Not thread-safe.</b>
 */
public final class HeatModel {
    static final int BLOCK_MINUTES = 15;
    private static final long BLOCK_MS = BLOCK_MINUTES * 60_000L;
    /** How long the mat itself may take to pass its heat on, h; our choice: bare wire to a slab of rubber. */
    private static final double[] LAGS = {0, 0.2, 0.4, 0.6};
    /** A contradicted model whose mat is heard to switch this often is itself wrong: the thermostat still has its way. */
    private static final int SWITCHES = 6;
    /** Blocks after which its numbers can be believed: four hours. */
    private static final int BELIEVED = 16;

    private final HeatFit[] fits;
    private int best;
    private double saidBefore = Double.NaN;
    private int switches;
    private long block = Long.MIN_VALUE;
    private int count;
    private double rootSum;
    private double airSum;
    private final double[] heatSum = new double[LAGS.length];
    private int heats;
    /** The same sums, each reading weighted by how near it is to the block's end. */
    private double lateRoot;

    private double lateAir;
    private final double[] lateHeat = new double[LAGS.length];
    private long heatMs = Long.MIN_VALUE;
    private double root = Double.NaN;
    private long rootBlock = Long.MIN_VALUE;
    /** Sums of the last whole block, weighted towards its end, over its count. */
    private double lateRootBefore;

    private double lateAirBefore;
    private final double[] lateHeatBefore = new double[LAGS.length];
    private boolean heardBefore;
    private double told = Double.NaN;
    private double inferred = Double.NaN;
    private double perHour = Double.NaN;

    /** A model that knows only what is usual. */
    public HeatModel() {
        this(fits());
    }

    private HeatModel(HeatFit[] fits) {
        this.fits = fits;
    }

    private static HeatFit[] fits() {
        return Arrays.stream(LAGS).mapToObj(HeatFit::new).toArray(HeatFit[]::new);
    }

    /** A copy that goes on by itself. */
    public HeatModel copy() {
        var copy = new HeatModel(Arrays.stream(fits).map(HeatFit::copy).toArray(HeatFit[]::new));
        copy.best = best;
        copy.saidBefore = saidBefore;
        copy.switches = switches;
        copy.block = block;
        copy.count = count;
        copy.rootSum = rootSum;
        copy.airSum = airSum;
        System.arraycopy(heatSum, 0, copy.heatSum, 0, LAGS.length);
        copy.heats = heats;
        copy.root = root;
        copy.rootBlock = rootBlock;
        copy.lateRoot = lateRoot;
        copy.lateAir = lateAir;
        System.arraycopy(lateHeat, 0, copy.lateHeat, 0, LAGS.length);
        copy.heatMs = heatMs;
        copy.lateRootBefore = lateRootBefore;
        copy.lateAirBefore = lateAirBefore;
        System.arraycopy(lateHeatBefore, 0, copy.lateHeatBefore, 0, LAGS.length);
        copy.heardBefore = heardBefore;
        copy.told = told;
        copy.inferred = inferred;
        copy.perHour = perHour;
        return copy;
    }

    /** Leaves out the block it is in and the one before: the probes that are heard are not the same any more. */
    public void skip() {
        clearBlock();
        rootBlock = Long.MIN_VALUE;
    }

    /**
     * Takes a root-zone reading with what else is known then. Readings older than the current block change nothing.
     *
     * @param rootC in the medium
     * @param airC of the room; the reading is left out while it is NaN
     * @param heating 1 while the mat is said to heat, 0 while it rests, NaN when unknown
     */
    public void accept(long timeMs, double rootC, double airC, double heating) {
        if (Double.isNaN(rootC) || Double.isNaN(airC)) {
            return;
        }
        long now = Math.floorDiv(timeMs, BLOCK_MS);
        if (now < block) {
            return;
        }
        if (now != block) {
            closeBlock();
            block = now;
        }
        double late = (timeMs - now * BLOCK_MS) / (double) BLOCK_MS;
        count++;
        rootSum += rootC;
        airSum += airC;
        lateRoot += late * rootC;
        lateAir += late * airC;
        if (!Double.isNaN(heating)) {
            takeHeat(timeMs, heating, late);
        }
    }

    private void takeHeat(long timeMs, double heating, double late) {
        double hours = heatMs == Long.MIN_VALUE ? 0 : Math.max(0, timeMs - heatMs) / 3_600_000.0;
        heatMs = timeMs;
        if (heating != saidBefore) {
            switches++;
            saidBefore = heating;
        }
        for (int i = 0; i < fits.length; i++) {
            double lagged = fits[i].heat(heating, hours);
            heatSum[i] += lagged;
            lateHeat[i] += late * lagged;
        }
        heats++;
    }

    private void closeBlock() {
        if (count == 0) {
            return;
        }
        double meanRoot = rootSum / count;
        boolean heard = heats > 0;
        if (rootBlock != Long.MIN_VALUE && block - rootBlock == 1) {
            // What moves one block's mean to the next one's is what happens from the first's begin to the second's end,
            // and counts most in the middle: by the distance to the far end of either block.
            double middleRoot = lateRootBefore + (rootSum - lateRoot) / count;
            double middleAir = lateAirBefore + (airSum - lateAir) / count;
            look(meanRoot, middleAir - middleRoot, heard && heardBefore);
        }
        root = meanRoot;
        rootBlock = block;
        lateRootBefore = lateRoot / count;
        lateAirBefore = lateAir / count;
        heardBefore = heard;
        for (int i = 0; i < fits.length; i++) {
            lateHeatBefore[i] = heard ? lateHeat[i] / heats : Double.NaN;
        }
        clearBlock();
    }

    private void clearBlock() {
        count = 0;
        rootSum = 0;
        airSum = 0;
        heats = 0;
        lateRoot = 0;
        lateAir = 0;
        Arrays.fill(heatSum, 0);
        Arrays.fill(lateHeat, 0);
    }

    private void look(double newRoot, double airLessRoot, boolean heard) {
        double hours = BLOCK_MINUTES / 60.0;
        perHour = (newRoot - root) / hours;
        told = Double.NaN;
        if (heard) {
            double[] middleHeat = new double[fits.length];
            for (int i = 0; i < fits.length; i++) {
                middleHeat[i] = lateHeatBefore[i] + (heatSum[i] - lateHeat[i]) / heats;
                fits[i].learn(airLessRoot, middleHeat[i], hours, newRoot - root);
            }
            choose();
            told = middleHeat[best];
        }
        double share = fits[best].share(perHour, airLessRoot);
        inferred = Double.isNaN(inferred) ? share : inferred + 0.6 * (share - inferred);
    }

    /** The lag that has foreseen best, while nothing contradicts it; another only when it is plainly better. */
    private void choose() {
        if (fits[best].isContradicted()) {
            if (switches >= SWITCHES) {
                Arrays.stream(fits).forEach(HeatFit::doubtAll);
                switches = 0;
            }
            return;
        }
        switches = 0;
        for (int i = 0; i < fits.length; i++) {
            if (fits[i].error() < 0.8 * fits[best].error()) {
                best = i;
            }
        }
    }

    /** The time constant tau in h. */
    public double timeConstantHours() {
        return fits[best].timeConstantHours();
    }

    /** What the mat brings in the long run when it heats all the time, K. */
    public double gain() {
        return fits[best].gain();
    }

    /** Where the place comes to at rest, over the air, K; mostly a little below 0. */
    public double restOverAir() {
        return fits[best].restOverAir();
    }

    /** Blocks learnt from so far. */
    public int learnt() {
        return fits[best].learnt();
    }

    /** Whether it has run long enough beside a mat that says what it does for its numbers to be believed. */
    public boolean isBelieved() {
        return learnt() >= BELIEVED;
    }

    /** Whether what happens does not fit what the mat says of itself. */
    public boolean isContradicted() {
        return fits[best].isContradicted();
    }

    /** The share of its heat that should reach the place by what the mat says, its own lag in; NaN when it says nothing. */
    public double toldHeat() {
        return told;
    }

    /**
     * The share of time the mat seems to heat, from the temperatures alone: about 0 at rest, about 1 while it heats; noise may
     * carry it beyond. NaN before two blocks.
     */
    public double inferredHeat() {
        return inferred;
    }

    /** Change of the root zone over the last two blocks, K/h; NaN before two. */
    public double perHour() {
        return perHour;
    }

    /** Root zone of the last whole block; NaN before the first. */
    public double root() {
        return root;
    }

    /** Where the place comes to in the long run. */
    public double steady(double airC, double heat) {
        return airC + restOverAir() + gain() * heat;
    }

    /**
     * The temperature some time on.
     *
     * @param rootC now
     * @param airC from now on
     * @param heat share of time the mat heats from now on
     */
    public double ahead(double rootC, double airC, double heat, double hours) {
        double end = steady(airC, heat);
        return end + (rootC - end) * Math.exp(-hours / timeConstantHours());
    }

    /**
     * Hours until a temperature is reached with the mat as given; {@link Double#POSITIVE_INFINITY} when it never is, 0 when
     * it is there already.
     */
    public double hoursTo(double limitC, double rootC, double airC, double heat) {
        if (rootC >= limitC) {
            return 0;
        }
        double end = steady(airC, heat);
        return end <= limitC
                ? Double.POSITIVE_INFINITY
                : Math.log((end - rootC) / (end - limitC)) * timeConstantHours();
    }
}
