package traytender.config.crop;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;

/** One value for every {@link LimitKey}, for one crop at one stage. Immutable. Units and ranges are the keys'. */
public final class Limits {
    private final double[] values;

    private Limits(double[] values) {
        this.values = values;
    }

    /**
     * Limits from a value for every key.
     *
     * @throws IllegalArgumentException when a key is missing or its value out of its range
     */
    public static Limits of(Map<LimitKey, Double> values) {
        double[] all = new double[LimitKey.values().length];
        for (LimitKey key : LimitKey.values()) {
            Double value = values.get(key);
            if (value == null || !(value >= key.lowest() && value <= key.highest())) {
                throw new IllegalArgumentException(
                        key.word() + " is " + value + ", allowed " + key.lowest() + ".." + key.highest());
            }
            all[key.ordinal()] = value;
        }
        return new Limits(all);
    }

    /** These limits with some keys replaced. */
    public Limits with(Map<LimitKey, Double> changes) {
        var all = new EnumMap<LimitKey, Double>(LimitKey.class);
        for (LimitKey key : LimitKey.values()) {
            all.put(key, get(key));
        }
        all.putAll(changes);
        return of(all);
    }

    /** The value of one key. */
    public double get(LimitKey key) {
        return values[key.ordinal()];
    }

    public double dryLine() {
        return get(LimitKey.DRY_LINE);
    }

    public double wetLine() {
        return get(LimitKey.WET_LINE);
    }

    public double wetHours() {
        return get(LimitKey.WET_HOURS);
    }

    public double unevenRatio() {
        return get(LimitKey.UNEVEN_RATIO);
    }

    public double lastingMinutes() {
        return get(LimitKey.LASTING_MINUTES);
    }

    public double clearMargin() {
        return get(LimitKey.CLEAR_MARGIN);
    }

    public double rootCold() {
        return get(LimitKey.ROOT_COLD);
    }

    public double rootTargetLow() {
        return get(LimitKey.ROOT_TARGET_LOW);
    }

    public double rootTargetHigh() {
        return get(LimitKey.ROOT_TARGET_HIGH);
    }

    public double rootHot() {
        return get(LimitKey.ROOT_HOT);
    }

    public double rootShutOff() {
        return get(LimitKey.ROOT_SHUT_OFF);
    }

    public double rootSpread() {
        return get(LimitKey.ROOT_SPREAD);
    }

    public double airNightCold() {
        return get(LimitKey.AIR_NIGHT_COLD);
    }

    public double airHot() {
        return get(LimitKey.AIR_HOT);
    }

    public double recoveryDays() {
        return get(LimitKey.RECOVERY_DAYS);
    }

    public double feedDays() {
        return get(LimitKey.FEED_DAYS);
    }

    public double hardenDays() {
        return get(LimitKey.HARDEN_DAYS);
    }

    public double frost() {
        return get(LimitKey.FROST);
    }

    public double soakHours() {
        return get(LimitKey.SOAK_HOURS);
    }

    public double dampAirHumidity() {
        return get(LimitKey.DAMP_AIR_HUMIDITY);
    }

    public double dampAirHours() {
        return get(LimitKey.DAMP_AIR_HOURS);
    }

    public double dryHorizonHours() {
        return get(LimitKey.DRY_HORIZON_HOURS);
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Limits limits && Arrays.equals(values, limits.values);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(values);
    }
}
