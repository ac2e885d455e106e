package traytender.dashboard.limits;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import traytender.config.crop.Crops;
import traytender.config.crop.Stage;

/**
 * What a grower's own words and waterings say about the dry line of a crop at a stage: for every line the needs it would have
 * warned of in time and the false alarms it would have given. Only ever shown: nothing is changed by it.
 *
 * @param now the dry line in force
 * @param moments what it rests on, in order of time
 * @param tradeoff by rising line, a percent apart
 * @param suggested the line with the most needs warned of less the false alarms, the nearest to {@code now} of equally good
 *     ones; empty when the line in force is as good, or too little was said
 */
public record LineSuggestion(
        String crop,
        Stage stage,
        double now,
        List<LineMoment> moments,
        List<Tradeoff> tradeoff,
        OptionalDouble suggested) {
    /** So many moments are needed before a line is suggested; our choice: one word may be a slip. */
    static final int FEWEST = 3;
    /** How far beyond the moments the trade-off is shown, in percent. */
    private static final int MARGIN = 3;

    /**
     * What a line would have done.
     *
     * @param line fraction of container capacity
     * @param warned needs it would have warned of in time
     * @param falseAlarms alarms that the grower has called not so and it would give
     */
    public record Tradeoff(double line, int warned, int falseAlarms) {
        private int worth() {
            return warned - falseAlarms;
        }
    }

    public LineSuggestion {
        moments = List.copyOf(moments);
        tradeoff = List.copyOf(tradeoff);
    }

    /** One for each crop and stage that something was said about, in order of crop and stage. */
    static List<LineSuggestion> of(List<LineMoment> moments, Crops crops) {
        Map<String, Map<Stage, List<LineMoment>>> byStage = moments.stream()
                .collect(Collectors.groupingBy(
                        LineMoment::crop,
                        TreeMap::new,
                        Collectors.groupingBy(LineMoment::stage, TreeMap::new, Collectors.toList())));
        var all = new ArrayList<LineSuggestion>();
        byStage.forEach((crop, stages) -> stages.forEach((stage, mine) ->
                all.add(of(crop, stage, crops.get(crop).limits(stage).dryLine(), mine))));
        return List.copyOf(all);
    }

    private static LineSuggestion of(String crop, Stage stage, double now, List<LineMoment> moments) {
        int lowest = percent(Math.min(
                now, moments.stream().mapToDouble(LineMoment::moisture).min().orElse(now)));
        int highest = percent(Math.max(
                now, moments.stream().mapToDouble(LineMoment::moisture).max().orElse(now)));
        List<Tradeoff> tradeoff = IntStream.rangeClosed(Math.max(0, lowest - MARGIN), Math.min(100, highest + MARGIN))
                .mapToObj(line -> tradeoff(line / 100.0, moments))
                .toList();
        int asItIs = tradeoff(now, moments).worth();
        OptionalDouble suggested = moments.size() < FEWEST
                ? OptionalDouble.empty()
                : tradeoff.stream()
                        .filter(one -> one.worth() > asItIs)
                        .min(Comparator.comparingInt((Tradeoff one) -> -one.worth())
                                .thenComparingDouble(one -> Math.abs(one.line() - now)))
                        .map(one -> OptionalDouble.of(one.line()))
                        .orElse(OptionalDouble.empty());
        return new LineSuggestion(crop, stage, now, moments, tradeoff, suggested);
    }

    private static int percent(double moisture) {
        return (int) Math.round(moisture * 100);
    }

    private static Tradeoff tradeoff(double line, List<LineMoment> moments) {
        int warned = 0;
        int falseAlarms = 0;
        for (LineMoment moment : moments) {
            if (moment.isWarnedBy(line)) {
                if (moment.why().isNeed()) {
                    warned++;
                } else {
                    falseAlarms++;
                }
            }
        }
        return new Tradeoff(line, warned, falseAlarms);
    }
}
