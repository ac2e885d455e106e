package traytender.rules.drying;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How unevenly a tray has dried since its last watering: the fastest place's loss over the slowest one's, and what is left of
 * it beyond doubt. A gain error of a few percent shifts a loss by as much of itself; noise shifts it by the levels' spread.
 *
 * @param fastest index into the losses given
 * @param slowest index into the losses given
 * @param ratio fastest loss over slowest loss, never below 1; infinite when the slowest lost nothing
 * @param surely the ratio the losses show even when both err by one standard deviation against it
 */
public record UnevenDrying(int fastest, int slowest, double ratio, double surely) {
    /** Standard deviation of a cheap probe's gain; our choice. */
    public static final double GAIN_ERROR = 0.02;
    /** Losses below this say nothing of their ratio; our choice. */
    static final double SMALLEST_LOSS = 0.03;

    /**
     * What one place lost.
     *
     * @param lost moisture since the watering settled; NaN when it does not count
     * @param error its standard deviation, gain not included
     */
    public record Loss(double lost, double error) {
        double spread() {
            return Math.hypot(error, GAIN_ERROR * lost);
        }
    }

    /** Compares the places of one tray; null when fewer than two count, or the fastest has hardly lost anything. */
    public static @Nullable UnevenDrying of(List<Loss> losses) {
        int fast = -1;
        int slow = -1;
        for (int i = 0; i < losses.size(); i++) {
            double lost = losses.get(i).lost();
            if (Double.isNaN(lost)) {
                continue;
            }
            fast = fast < 0 || lost > losses.get(fast).lost() ? i : fast;
            slow = slow < 0 || lost < losses.get(slow).lost() ? i : slow;
        }
        if (fast < 0 || fast == slow || losses.get(fast).lost() < SMALLEST_LOSS) {
            return null;
        }
        double quick = losses.get(fast).lost();
        double tardy = Math.max(0, losses.get(slow).lost());
        double surely =
                (quick - losses.get(fast).spread()) / (tardy + losses.get(slow).spread());
        return new UnevenDrying(fast, slow, tardy == 0 ? Double.POSITIVE_INFINITY : quick / tardy, Math.max(1, surely));
    }
}
