package traytender.dashboard.limits;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;

/**
 * What other limits would have made different, alert by alert. An alert by the old limits and one by the new are the same one
 * when they are of one kind, place and reason and were open at the same time, or opened within {@link #NEAR} of each other.
 *
 * @param before by the old limits; null when only the new ones give it
 * @param after by the new limits; null when only the old ones gave it
 */
public record Difference(@Nullable Alert before, @Nullable Alert after) {
    /** Our choice: two alerts about the same place on different days are two. */
    static final Duration NEAR = Duration.ofHours(6);

    /** What became of an alert. */
    public enum What {
        GAINED,
        LOST,
        EARLIER,
        LATER,
        SAME
    }

    /** Pairs the alerts of two replays and keeps the pairs that opened in a time, in order of it. */
    public static List<Difference> between(List<Alert> before, List<Alert> after, Instant from, Instant to) {
        Map<String, List<Alert>> olds = byPlace(before);
        Map<String, List<Alert>> news = byPlace(after);
        var pairs = new ArrayList<Difference>();
        olds.forEach((place, mine) -> pair(mine, news.getOrDefault(place, List.of()), pairs));
        news.forEach((place, mine) -> {
            if (!olds.containsKey(place)) {
                mine.forEach(alert -> pairs.add(new Difference(null, alert)));
            }
        });
        return pairs.stream()
                .filter(pair -> !pair.opened().isBefore(from) && pair.opened().isBefore(to))
                .sorted(Comparator.comparing(Difference::opened)
                        .thenComparing(pair -> pair.either().id()))
                .toList();
    }

    private static Map<String, List<Alert>> byPlace(List<Alert> alerts) {
        var byPlace = new TreeMap<String, List<Alert>>();
        alerts.stream()
                .sorted(Comparator.comparing(Alert::opened).thenComparing(Alert::id))
                .forEach(alert -> byPlace.computeIfAbsent(
                                alert.kind() + "/" + alert.place() + "/" + alert.zone() + "/" + alert.reason(),
                                place -> new ArrayList<>())
                        .add(alert));
        return byPlace;
    }

    /** Both in order of opening; each is paired with the first of the other that it meets. */
    private static void pair(List<Alert> olds, List<Alert> news, List<Difference> pairs) {
        int i = 0;
        int j = 0;
        while (i < olds.size() || j < news.size()) {
            Alert old = i < olds.size() ? olds.get(i) : null;
            Alert now = j < news.size() ? news.get(j) : null;
            if (old != null && now != null && meet(old, now)) {
                pairs.add(new Difference(old, now));
                i++;
                j++;
            } else if (now == null || (old != null && old.opened().isBefore(now.opened()))) {
                pairs.add(new Difference(old, null));
                i++;
            } else {
                pairs.add(new Difference(null, now));
                j++;
            }
        }
    }

    private static boolean meet(Alert one, Alert other) {
        boolean overlap = !end(one).isBefore(other.opened()) && !end(other).isBefore(one.opened());
        return overlap || Duration.between(one.opened(), other.opened()).abs().compareTo(NEAR) <= 0;
    }

    private static Instant end(Alert alert) {
        Instant closed = alert.closed();
        return closed == null ? Instant.MAX : closed;
    }

    /** What became of it. */
    public What what() {
        if (before == null) {
            return What.GAINED;
        }
        if (after == null) {
            return What.LOST;
        }
        int order = after.opened().compareTo(before.opened());
        return order < 0 ? What.EARLIER : order > 0 ? What.LATER : What.SAME;
    }

    /** The one by the new limits, else the one by the old. */
    public Alert either() {
        Alert one = after == null ? before : after;
        if (one == null) {
            throw new IllegalStateException("a difference of two alerts that are not there");
        }
        return one;
    }

    /** When the first of the two opened. */
    public Instant opened() {
        return Stream.of(before, after)
                .filter(alert -> alert != null)
                .map(Alert::opened)
                .min(Comparator.naturalOrder())
                .orElseThrow();
    }
}
