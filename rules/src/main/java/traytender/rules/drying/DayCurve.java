package traytender.rules.drying;

/**
 * How drying in the light runs over the day: slower in the first hours, when the medium is still cool from the night and the air
 * not yet dry, then even. The vapour pressure deficit of any room runs so; the figures are our choice, measured on made-up
 * trays. In the dark 1.
 */
final class DayCurve {
    private static final double[] SHARE = {0, 0.18, 0.36, 0.6, 1};
    private static final double[] PULL = {0.65, 0.71, 0.96, 1.03, 0.96};

    private DayCurve() {}

    /** The pull at a time, as a multiple of the pull in the light. */
    static double at(LightPlan light, long timeMs) {
        long from = light.lastChangeMs(timeMs);
        long to = light.nextChangeMs(timeMs);
        if (!light.isLit(timeMs) || from == Long.MIN_VALUE || to == Long.MAX_VALUE) {
            return 1;
        }
        double share = (timeMs - from) / (double) (to - from);
        int i = 1;
        while (i < SHARE.length - 1 && share > SHARE[i]) {
            i++;
        }
        double part = (share - SHARE[i - 1]) / (SHARE[i] - SHARE[i - 1]);
        return PULL[i - 1] + part * (PULL[i] - PULL[i - 1]);
    }
}
