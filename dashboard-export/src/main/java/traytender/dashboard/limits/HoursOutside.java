package traytender.dashboard.limits;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import traytender.config.crop.LimitKey;
import traytender.config.site.Quantity;
import traytender.rules.trace.Stay;

/**
 * How long a tray's worst place stood outside one limit, by the readings themselves: an alert opens later than a line is
 * crossed and closes later than it is left.
 *
 * @param limit {@code dry-line}, {@code wet-line}, {@code root-cold} or {@code root-hot}
 * @param before hours by the limits in force
 * @param after hours by the others
 */
public record HoursOutside(String tray, LimitKey limit, double before, double after) {
    /** Of every tray and limit that a place was outside of by either, by tray and limit. */
    static List<HoursOutside> between(List<Stay> before, List<Stay> after) {
        var old = worst(before);
        var fresh = worst(after);
        var both = new ArrayList<HoursOutside>();
        old.forEach((where, hours) ->
                both.add(new HoursOutside(where.tray, where.limit, hours, fresh.getOrDefault(where, 0.0))));
        return both.stream()
                .filter(one -> one.before > 0 || one.after > 0)
                .sorted(Comparator.comparing(HoursOutside::tray).thenComparing(HoursOutside::limit))
                .toList();
    }

    private record Where(String tray, LimitKey limit) {}

    private record OfProbe(Where where, String probe) {}

    private static Map<Where, Double> worst(List<Stay> stays) {
        Map<OfProbe, Double> sums = new HashMap<>();
        for (Stay stay : stays) {
            boolean moisture = stay.probe().measures() == Quantity.MOISTURE;
            var low = new Where(stay.tray(), moisture ? LimitKey.DRY_LINE : LimitKey.ROOT_COLD);
            var high = new Where(stay.tray(), moisture ? LimitKey.WET_LINE : LimitKey.ROOT_HOT);
            sums.merge(new OfProbe(low, stay.probe().id()), stay.below().hours(), Double::sum);
            sums.merge(new OfProbe(high, stay.probe().id()), stay.above().hours(), Double::sum);
        }
        Map<Where, Double> worst = new HashMap<>();
        sums.forEach((one, hours) -> worst.merge(one.where, hours, Math::max));
        return worst;
    }
}
