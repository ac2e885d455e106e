package traytender.rules.heat;

/**
 * The temperature of one place of a tray over its mat, as a first-order model fitted while it runs:
 *
 * <pre>
 *   dT/dt = (T_air - T) / tau + b u + c
 * </pre>
 *
 * with T the root zone, u the share of time the mat heats, tau the time constant, b the mat's pull and c what is left: the
 * cooling by evaporation, or the sun. At rest the place comes to T_air + c tau, with the mat on it comes b tau higher.
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
    private static final int SIZE = 3;
    /** 1/tau, b and c before anything is learnt: tau 2 h, a mat that brings 12 K, 1 K cooler than the air at rest. */
    private static final double[] USUAL = {0.5, 6, -0.5};

    private static final double[] DOUBT = {0.2, 4, 0.4};
    private static final double[] LOWEST = {1 / 12.0, 0.5, -3};
    private static final double[] HIGHEST = {3, 40, 6};
    /** By how much of its first doubt each number may have changed in a block; our choice, a third in a day. */
    private static final double FORGETTING = 0.03;
    /** Standard deviation of a block's change beside the model, K; our choice. */
    private static final double BLOCK_ERROR = 0.15;

    private final double[] model = USUAL.clone();
    private final double[][] covariance = new double[SIZE][SIZE];
    private long block = Long.MIN_VALUE;
    private int count;
    private double rootSum;
    private double airSum;
    private double heatSum;
    private int heats;
    /** The same sums, each reading weighted by how near it is to the block's end. */
    private double lateRoot;

    private double lateAir;
    private double lateHeat;
    private double root = Double.NaN;
    private long rootBlock = Long.MIN_VALUE;
    /** Sums of the last whole block, weighted towards its end, over its count. */
    private double lateRootBefore;

    private double lateAirBefore;
    private double lateHeatBefore = Double.NaN;
    private double inferred = Double.NaN;
    private double perHour = Double.NaN;
    private double surprise = Double.NaN;
    private int learnt;

    /** A model that knows only what is usual. */
    public HeatModel() {
        for (int i = 0; i < SIZE; i++) {
            covariance[i][i] = DOUBT[i] * DOUBT[i];
        }
    }

    /** A copy that goes on by itself. */
    public HeatModel copy() {
        var copy = new HeatModel();
        System.arraycopy(model, 0, copy.model, 0, SIZE);
        for (int i = 0; i < SIZE; i++) {
            System.arraycopy(covariance[i], 0, copy.covariance[i], 0, SIZE);
        }
        copy.block = block;
        copy.count = count;
        copy.rootSum = rootSum;
        copy.airSum = airSum;
        copy.heatSum = heatSum;
        copy.heats = heats;
        copy.root = root;
        copy.rootBlock = rootBlock;
        copy.lateRoot = lateRoot;
        copy.lateAir = lateAir;
        copy.lateHeat = lateHeat;
        copy.lateRootBefore = lateRootBefore;
        copy.lateAirBefore = lateAirBefore;
        copy.lateHeatBefore = lateHeatBefore;
        copy.inferred = inferred;
        copy.perHour = perHour;
        copy.surprise = surprise;
        copy.learnt = learnt;
        return copy;
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
            heatSum += heating;
            lateHeat += late * heating;
            heats++;
        }
    }

    private void closeBlock() {
        if (count == 0) {
            return;
        }
        double meanRoot = rootSum / count;
        if (rootBlock != Long.MIN_VALUE && block - rootBlock == 1) {
            // What moves one block's mean to the next one's is what happens from the first's begin to the second's end,
            // and
            // counts most in the middle: by the distance to the far end of either block.
            double middleRoot = lateRootBefore + (rootSum - lateRoot) / count;
            double middleAir = lateAirBefore + (airSum - lateAir) / count;
            double heat = heats == 0 ? Double.NaN : lateHeatBefore + (heatSum - lateHeat) / heats;
            look(meanRoot, middleRoot, middleAir, heat);
        }
        root = meanRoot;
        rootBlock = block;
        lateRootBefore = lateRoot / count;
        lateAirBefore = lateAir / count;
        lateHeatBefore = heats == 0 ? Double.NaN : lateHeat / heats;
        count = 0;
        rootSum = 0;
        airSum = 0;
        heatSum = 0;
        heats = 0;
        lateRoot = 0;
        lateAir = 0;
        lateHeat = 0;
    }

    private void look(double newRoot, double middleRoot, double middleAir, double heat) {
        double hours = BLOCK_MINUTES / 60.0;
        perHour = (newRoot - root) / hours;
        double rest = model[0] * (middleAir - middleRoot) + model[2];
        double share = (perHour - rest) / model[1];
        inferred = Double.isNaN(inferred) ? share : inferred + 0.6 * (share - inferred);
        if (Double.isNaN(heat)) {
            surprise = Double.NaN;
            return;
        }
        surprise = perHour - rest - model[1] * heat;
        learn(new double[] {(middleAir - middleRoot) * hours, heat * hours, hours}, newRoot - root);
    }

    private static double square(double value) {
        return value * value;
    }

    private void learn(double[] x, double change) {
        double foreseen = 0;
        double[] gain = new double[SIZE];
        double total = BLOCK_ERROR * BLOCK_ERROR;
        for (int i = 0; i < SIZE; i++) {
            foreseen += x[i] * model[i];
            for (int j = 0; j < SIZE; j++) {
                gain[i] += covariance[i][j] * x[j];
            }
            total += x[i] * gain[i];
        }
        // A mat that fails is no reason to learn that mats do not heat: what is far off does not count.
        double limit = 3 * Math.sqrt(total);
        if (Math.abs(change - foreseen) > limit) {
            return;
        }
        double pull = change - foreseen;
        for (int i = 0; i < SIZE; i++) {
            model[i] = Math.max(LOWEST[i], Math.min(HIGHEST[i], model[i] + gain[i] / total * pull));
        }
        for (int i = 0; i < SIZE; i++) {
            for (int j = 0; j < SIZE; j++) {
                covariance[i][j] -= gain[i] * gain[j] / total;
            }
            covariance[i][i] = Math.min(DOUBT[i] * DOUBT[i], covariance[i][i] + square(FORGETTING * DOUBT[i]));
        }
        learnt++;
    }

    /** The time constant tau in h. */
    public double timeConstantHours() {
        return 1 / model[0];
    }

    /** What the mat brings in the long run when it heats all the time, K. */
    public double gain() {
        return model[1] / model[0];
    }

    /** Where the place comes to at rest, over the air, K; mostly a little below 0. */
    public double restOverAir() {
        return model[2] / model[0];
    }

    /** Blocks learnt from so far. */
    public int learnt() {
        return learnt;
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

    /** How far the last change was off the model, K/h: below 0 when heat is missing; NaN without a power probe. */
    public double surprise() {
        return surprise;
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
        return end + (rootC - end) * Math.exp(-hours * model[0]);
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
        return end <= limitC ? Double.POSITIVE_INFINITY : Math.log((end - rootC) / (end - limitC)) / model[0];
    }
}
