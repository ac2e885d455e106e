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
    private static final double MS_PER_HOUR = 3_600_000.0;
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
    private double root = Double.NaN;
    private double air = Double.NaN;
    private long rootBlock = Long.MIN_VALUE;
    private double heatNow = Double.NaN;
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
        copy.air = air;
        copy.rootBlock = rootBlock;
        copy.heatNow = heatNow;
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
        count++;
        rootSum += rootC;
        airSum += airC;
        if (!Double.isNaN(heating)) {
            heatSum += heating;
            heats++;
        }
    }

    private void closeBlock() {
        if (count == 0) {
            return;
        }
        double meanRoot = rootSum / count;
        double meanAir = airSum / count;
        double heat = heats == 0 ? Double.NaN : heatSum / heats;
        if (rootBlock != Long.MIN_VALUE && block - rootBlock <= 2) {
            double hours = (block - rootBlock) * BLOCK_MS / MS_PER_HOUR;
            // Block means lie in the blocks' middles: half of either block's heat stands between them.
            double between = Double.isNaN(heat) || Double.isNaN(heatNow) ? Double.NaN : (heat + heatNow) / 2;
            look(hours, meanRoot, (meanRoot + root) / 2, (meanAir + air) / 2, between);
        }
        root = meanRoot;
        air = meanAir;
        heatNow = heat;
        rootBlock = block;
        count = 0;
        rootSum = 0;
        airSum = 0;
        heatSum = 0;
        heats = 0;
    }

    private void look(double hours, double newRoot, double middleRoot, double middleAir, double heat) {
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
