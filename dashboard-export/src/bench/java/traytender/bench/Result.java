package traytender.bench;

import java.util.Locale;

/**
 * One row of the table: what was measured beside its limit.
 *
 * @param work what was done, with its size
 * @param value measured
 * @param limit measured in the same run, or the goal's own number where there is nothing to compare with
 * @param ratio value / limit, the right way round for the goal
 * @param goal in words
 * @param unit of value and limit
 * @param met whether the goal is met
 * @param note what bounds it, or how it was measured
 */
record Result(
        String work, double value, double limit, double ratio, String goal, String unit, boolean met, String note) {
    private static final String TOLD = "told";

    /** The less the better: at most so many times the limit. */
    static Result atMost(String work, double value, double limit, double times, String unit, String note) {
        double ratio = value / limit;
        return new Result(
                work, value, limit, ratio, "<= %s times".formatted(number(times)), unit, ratio <= times, note);
    }

    /** The more the better: at least so much of the limit. */
    static Result atLeast(String work, double value, double limit, double share, String unit, String note) {
        double ratio = value / limit;
        return new Result(
                work, value, limit, ratio, ">= %s of it".formatted(number(share)), unit, ratio >= share, note);
    }

    /** The less the better: at most this, whatever the limit beside it. */
    static Result below(String work, double value, double limit, double most, String unit, String note) {
        return new Result(
                work, value, limit, value / limit, "<= " + number(most) + " " + unit, unit, value <= most, note);
    }

    /** Whether it is only reported; then nothing is to be met. */
    boolean isTold() {
        return goal.equals(TOLD);
    }

    /** Reported, with no goal of its own. */
    static Result told(String work, double value, double limit, String unit, String note) {
        return new Result(work, value, limit, value / limit, TOLD, unit, true, note);
    }

    static String number(double value) {
        if (value >= 1_000) {
            return String.format(Locale.ROOT, "%,.0f", value);
        }
        return String.format(Locale.ROOT, value >= 10 ? "%.1f" : "%.2f", value).replaceFirst("\\.?0+$", "");
    }
}
