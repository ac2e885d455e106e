package traytender.rules.heat;

/**
 * The three numbers of {@link HeatModel}'s equation for one assumed lag of the mat, fitted by recursive least squares that
 * forgets. What contradicts the model grossly is not learnt: a mat that fails is no reason to learn that mats do not heat. Once
 * two blocks running have contradicted it, nothing is learnt before {@value #CONSISTENT} have agreed. <b>Not thread-safe.</b>
 */
final class HeatFit {
    private static final int SIZE = 3;
    /** 1/tau, b and c before anything is learnt: tau 2 h, a mat that brings 12 K, 1 K cooler than the air at rest. */
    private static final double[] USUAL = {0.5, 6, -0.5};

    private static final double[] DOUBT = {0.2, 4, 0.4};
    /** Tau from 20 min to 6 h, up to 3 K/h of evaporation and 6 K/h of sun; our choice, wider than any plug tray seen. */
    private static final double[] LOWEST = {1 / 6.0, 0.5, -3};

    private static final double[] HIGHEST = {3, 40, 6};
    /** A mat brings so much over the air in the long run, or it is none, K; our choice: less would be of no use. */
    private static final double LEAST_GAIN = 5;
    /** By how much of its first doubt each number may have changed in a block; our choice, a third in a day. */
    private static final double FORGETTING = 0.03;
    /** Standard deviation of a block's change beside the model, K; our choice. */
    private static final double BLOCK_ERROR = 0.15;
    /** Blocks in agreement before a contradicted model learns again: an hour. */
    static final int CONSISTENT = 4;
    /** How fast old errors are forgotten when lags are compared; half in about six hours. */
    private static final double ERROR_SHARE = 0.03;

    private final double lagHours;
    private final double[] model = USUAL.clone();
    private final double[][] covariance = new double[SIZE][SIZE];
    private double error = BLOCK_ERROR * BLOCK_ERROR;
    private double heat = Double.NaN;
    private int contradicted;
    private int agreed = CONSISTENT;
    private int learnt;

    HeatFit(double lagHours) {
        this.lagHours = lagHours;
        unlearn();
    }

    private void unlearn() {
        for (int i = 0; i < SIZE; i++) {
            java.util.Arrays.fill(covariance[i], 0);
            covariance[i][i] = DOUBT[i] * DOUBT[i];
        }
    }

    HeatFit copy() {
        var copy = new HeatFit(lagHours);
        System.arraycopy(model, 0, copy.model, 0, SIZE);
        for (int i = 0; i < SIZE; i++) {
            System.arraycopy(covariance[i], 0, copy.covariance[i], 0, SIZE);
        }
        copy.error = error;
        copy.heat = heat;
        copy.contradicted = contradicted;
        copy.agreed = agreed;
        copy.learnt = learnt;
        return copy;
    }

    /** What reaches the medium of the mat's heat, a lag after the mat is said to give it; a share of 1. */
    double heat(double said, double hours) {
        if (Double.isNaN(heat)) {
            heat = said;
        } else {
            heat += (said - heat) * (lagHours == 0 ? 1 : 1 - Math.exp(-hours / lagHours));
        }
        return heat;
    }

    /** Change in K/h with the mat at rest, at this much of the air's temperature less the place's own. */
    double restPerHour(double airLessRoot) {
        return model[0] * airLessRoot + model[2];
    }

    double share(double perHour, double airLessRoot) {
        return (perHour - restPerHour(airLessRoot)) / model[1];
    }

    /** Takes a block's change in K over so many hours. */
    void learn(double airLessRoot, double lateHeat, double hours, double change) {
        double[] x = {airLessRoot * hours, lateHeat * hours, hours};
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
        double pull = change - foreseen;
        error += ERROR_SHARE * (Math.min(1, pull * pull) - error);
        boolean agrees = Math.abs(pull) <= (isContradicted() ? 3 * BLOCK_ERROR : 3 * Math.sqrt(total));
        contradicted = agrees ? 0 : contradicted + 1;
        agreed = !agrees ? contradicted >= 2 ? 0 : agreed : Math.min(CONSISTENT, agreed + 1);
        if (agrees && !isContradicted()) {
            take(gain, total, pull);
        }
    }

    private void take(double[] gain, double total, double pull) {
        for (int i = 0; i < SIZE; i++) {
            model[i] = Math.max(LOWEST[i], Math.min(HIGHEST[i], model[i] + gain[i] / total * pull));
        }
        model[1] = Math.max(LEAST_GAIN * model[0], model[1]);
        for (int i = 0; i < SIZE; i++) {
            for (int j = 0; j < SIZE; j++) {
                covariance[i][j] -= gain[i] * gain[j] / total;
            }
            double grown = covariance[i][i] + FORGETTING * DOUBT[i] * FORGETTING * DOUBT[i];
            covariance[i][i] = Math.min(DOUBT[i] * DOUBT[i], grown);
        }
        learnt++;
    }

    /** Forgets how sure it is: what it stands for has changed. */
    void doubtAll() {
        unlearn();
        contradicted = 0;
        agreed = CONSISTENT;
        learnt = 0;
    }

    /** Whether what happens contradicts the model and what the mat says of itself, taken together. */
    boolean isContradicted() {
        return agreed < CONSISTENT;
    }

    /** Mean square of what it foresaw wrongly in a block, K squared. */
    double error() {
        return error;
    }

    double timeConstantHours() {
        return 1 / model[0];
    }

    double gain() {
        return model[1] / model[0];
    }

    double restOverAir() {
        return model[2] / model[0];
    }

    int learnt() {
        return learnt;
    }
}
