package traytender.rules.drying;

/**
 * When plants have light, past and to come: they lose water several times as fast then as in the dark. Immutable.
 */
public interface LightPlan {
    /** Whether it is light at that time. */
    boolean isLit(long timeMs);

    /** The first time after {@code timeMs} at which light and dark change; {@link Long#MAX_VALUE} when they never do. */
    long nextChangeMs(long timeMs);

    /** When the light or dark that is at {@code timeMs} began; {@link Long#MIN_VALUE} when it always was. */
    long lastChangeMs(long timeMs);

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
        public long lastChangeMs(long timeMs) {
            return Long.MIN_VALUE;
        }
    };
}
