package traytender.ingest.nursery.world;

/** First-order lag: what follows a target with one time constant. */
final class Lag {
    private Lag() {}

    /**
     * Where a value is after a time.
     *
     * @param now NaN to begin at the target
     * @param tauHours time constant, above 0
     */
    static double follow(double now, double target, double hours, double tauHours) {
        return Double.isNaN(now) ? target : now + (target - now) * (1 - Math.exp(-hours / tauHours));
    }
}
