package traytender.rules.drying;

/**
 * When plants have light, past and to come: they lose water several times as fast then as in the dark. Immutable.
 */
public interface LightPlan {
    /** Whether it is light at that time. */
    boolean isLit(long timeMs);

    /** The first time after {@code timeMs} at which light and dark change; {@link Long#MAX_VALUE} when they never do. */
    long nextChangeMs(long timeMs);

    /** The sun's part of the light as leaves use it, 0 to about 1; 0 where no sun comes. */
    double sun(long timeMs);

    /** Light all the time. */
    LightPlan ALWAYS = new LightPlan() {
        @Override
        public boolean isLit(long timeMs) {
            return true;
        }

        @Override
        public long nextChangeMs(long timeMs) {
            return Long.MAX_VALUE;
        }

        @Override
        public double sun(long timeMs) {
            return 0;
        }
    };
}
