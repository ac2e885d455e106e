package traytender.ingest.nursery.score;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import traytender.config.alert.AlertKind;
import traytender.ingest.nursery.score.Score.Answer;
import traytender.ingest.nursery.score.Score.Fate;
import traytender.ingest.nursery.score.Score.ForecastError;

/** Many scores as the tables a person reads: by kind, and the goals with their 95 percent bounds. */
public final class ScoreTable {
    private static final List<AlertKind> MAT_FAULTS = List.of(AlertKind.MAT_NOT_HEATING, AlertKind.MAT_NOT_STOPPING);

    private static final List<AlertKind> LASTING = List.of(
            AlertKind.DRY,
            AlertKind.CENTRE_OVERHEATING,
            AlertKind.UNEVEN_HEAT,
            AlertKind.ROOT_COLD,
            AlertKind.NIGHT_COLD,
            AlertKind.AIR_HOT,
            AlertKind.LIGHT_OUT);

    /** Where forecasts are parted by the error that is their probes' own, h; our choice. */
    private static final double[] PROBES_PARTS = {0.15, 0.3, 0.6, Double.POSITIVE_INFINITY};

    private final List<Score> scores;
    private final int without;
    private final Map<AlertKind, Tally> kinds = new EnumMap<>(AlertKind.class);
    private final StringBuilder text = new StringBuilder();

    /**
     * A table of scores.
     *
     * @param without scenarios without any output, whose episodes the scores count as missed
     */
    public ScoreTable(List<Score> scores, int without) {
        this.scores = List.copyOf(scores);
        this.without = without;
        scores.forEach(score -> score.tallies()
                .forEach((kind, tally) ->
                        kinds.computeIfAbsent(kind, each -> new Tally()).add(tally)));
    }

    /** The whole text. */
    public String write() {
        byKind();
        goals();
        details();
        return text.toString();
    }

    private void byKind() {
        line(
                "%-20s %5s %5s %5s %6s  %-22s %5s %5s %5s %8s  %s",
                "kind",
                "req",
                "found",
                "late",
                "missed",
                "recall (95 %)",
                "good",
                "grey",
                "false",
                "reopened",
                "median delay min");
        kinds.forEach((kind, tally) -> line(
                "%-20s %5d %5d %5d %6d  %-22s %5d %5d %5d %8d  %s",
                kind.word(),
                tally.required,
                tally.found,
                tally.late,
                tally.missed,
                recall(tally),
                tally.good,
                tally.grey,
                tally.wrong,
                tally.reopened,
                median(tally.delays)));
    }

    private static String recall(Tally tally) {
        if (tally.required == 0) {
            return "-";
        }
        Bounds bounds = Bounds.ofProportion(tally.found, tally.required);
        double share = (double) tally.found / tally.required;
        return String.format(Locale.ROOT, "%.3f (%.3f to %.3f)", share, bounds.low(), bounds.high());
    }

    private void goals() {
        Tally all = new Tally();
        kinds.values().forEach(all::add);
        int days = scores.stream()
                .mapToInt(score -> score.truth().about().trayDays())
                .sum();
        line("");
        line("%d scenarios, %d tray-days, %d without output", scores.size(), days, without);
        share("required alerts opened in time", all.found, all.required);
        line("  mean over kinds %.3f, lowest kind %.3f", meanRecall(), lowestRecall());
        Bounds count = Bounds.ofCount(all.wrong);
        double hundreds = Math.max(1, days) / 100.0;
        line(
                "false alarms in 100 tray-days: %.2f (%d; 95 %% %.2f to %.2f); reopened within 30 min: %d",
                all.wrong / hundreds, all.wrong, count.low() / hundreds, count.high() / hundreds, all.reopened);
        List<Score> quiet =
                scores.stream().filter(score -> score.truth().about().quiet()).toList();
        share("quiet scenarios clean", count(quiet, score -> score.wrong().isEmpty()), quiet.size());
        forecasts();
        uneven();
        within("missed-watering within 45 min", List.of(AlertKind.MISSED_WATERING), 45);
        within("mat faults within 30 min of being plain", MAT_FAULTS, 30);
        Tally lasting = new Tally();
        LASTING.forEach(kind -> lasting.add(kinds.getOrDefault(kind, new Tally())));
        line("median delay after it is plain, of kinds with lasting-minutes: %s min", median(lasting.delays));
    }

    private void forecasts() {
        List<ForecastError> all =
                scores.stream().flatMap(score -> score.forecasts().stream()).toList();
        error("forecast of the dry line, hours off in the median", all);
        List<ForecastError> ahead = all.stream()
                .filter(one -> one.leadHours() >= 2 && one.leadHours() <= 6)
                .toList();
        error("  those 2 to 6 h ahead", ahead);
        double from = 0;
        for (double to : PROBES_PARTS) {
            byProbe(ahead, from, to);
            from = to;
        }
        share("  truth inside the 80 % interval", count(all, ForecastError::inside), all.size());
    }

    /** The same for probes of like quality, so that a reader sees what is the model's and what the probes'. */
    private void byProbe(List<ForecastError> errors, double from, double to) {
        error(
                String.format(
                        Locale.ROOT, "    of probes that alone make %.2f h or more, less than %.2f h, of it", from, to),
                errors.stream()
                        .filter(one -> Math.abs(one.guessHours()) >= from && Math.abs(one.guessHours()) < to)
                        .toList());
    }

    private void error(String what, List<ForecastError> errors) {
        line(
                "%s: %s, n %d; the probes' own part: %s",
                what,
                medianSize(errors, ForecastError::errorHours),
                errors.size(),
                medianSize(errors, ForecastError::guessHours));
    }

    private static String medianSize(List<ForecastError> errors, ToDoubleFunction<ForecastError> of) {
        return median(errors.stream()
                .map(error -> Math.abs(of.applyAsDouble(error)))
                .filter(size -> !size.isNaN())
                .toList());
    }

    /** Of the tray's uneven dryings, those opened before the zone named reaches its dry line. */
    private void uneven() {
        int required = 0;
        int early = 0;
        for (Score score : scores) {
            for (Answer answer : score.answers()) {
                if (answer.episode().kinds().get(0) == AlertKind.UNEVEN_DRYING) {
                    required++;
                    AlertLine alert = answer.alert();
                    early += alert != null
                                    && score.crossing(alert)
                                            .map(alert.opened()::isBefore)
                                            .orElse(true)
                            ? 1
                            : 0;
                }
            }
        }
        share("uneven-drying, right zone, before its dry line", early, required);
    }

    private void within(String what, List<AlertKind> wanted, int minutes) {
        List<Answer> answers = scores.stream()
                .flatMap(score -> score.answers().stream())
                .filter(answer -> wanted.contains(answer.episode().kinds().get(0)))
                .toList();
        share(what, count(answers, answer -> soon(answer, minutes)), answers.size());
    }

    private static boolean soon(Answer answer, int minutes) {
        AlertLine alert = answer.alert();
        return alert != null && Score.minutes(answer.episode().from(), alert.opened()) <= minutes;
    }

    private void details() {
        line("");
        for (Score score : scores) {
            String name = score.truth().about().scenario();
            score.answers().stream()
                    .filter(answer -> answer.fate() != Fate.FOUND)
                    .forEach(answer -> line(
                            "%s %s: %s %s %s, due %s to %s",
                            answer.fate().name().toLowerCase(Locale.ROOT),
                            name,
                            answer.episode().kinds().get(0).word(),
                            answer.episode().where().places(),
                            answer.episode().where().zones(),
                            answer.episode().earliest(),
                            answer.episode().latest()));
            score.wrong()
                    .forEach(alert -> line(
                            "false %s: %s %s %s at %s",
                            name,
                            alert.kind().word(),
                            alert.place(),
                            alert.zone().word(),
                            alert.opened()));
        }
    }

    private double meanRecall() {
        return recalls().stream().mapToDouble(Double::doubleValue).average().orElse(Double.NaN);
    }

    private double lowestRecall() {
        return recalls().stream().mapToDouble(Double::doubleValue).min().orElse(Double.NaN);
    }

    private List<Double> recalls() {
        var recalls = new ArrayList<Double>();
        kinds.values().stream()
                .filter(tally -> tally.required > 0)
                .forEach(tally -> recalls.add((double) tally.found / tally.required));
        return recalls;
    }

    private void share(String what, int hits, int tries) {
        if (tries == 0) {
            line("%s: none to tell by", what);
            return;
        }
        Bounds bounds = Bounds.ofProportion(hits, tries);
        line(
                "%s: %.3f (%d of %d; 95 %% %.3f to %.3f)",
                what, (double) hits / tries, hits, tries, bounds.low(), bounds.high());
    }

    private static String median(List<Double> values) {
        Bounds bounds = Bounds.ofMedian(values);
        double median =
                Bounds.median(values.stream().mapToDouble(Double::doubleValue).toArray());
        return values.isEmpty()
                ? "-"
                : String.format(Locale.ROOT, "%.2f (95 %% %.2f to %.2f)", median, bounds.low(), bounds.high());
    }

    private static <T> int count(List<T> of, Predicate<T> those) {
        return (int) of.stream().filter(those).count();
    }

    private void line(String format, Object... values) {
        text.append(String.format(Locale.ROOT, format, values)).append('\n');
    }

    /**
     * Prints the table of {@code SCENARIOS/NAME/truth.json} against {@code RESULTS/NAME.jsonl}.
     *
     * @throws IllegalArgumentException when not called with two folders
     */
    public static void main(String[] args) throws java.io.IOException {
        if (args.length != 2) {
            throw new IllegalArgumentException("SCENARIOS RESULTS");
        }
        var scores = new ArrayList<Score>();
        int without = 0;
        try (var folders = Files.list(Path.of(args[0]))) {
            for (Path folder : folders.filter(each -> Files.exists(each.resolve("truth.json")))
                    .sorted()
                    .toList()) {
                Path result = Path.of(args[1]).resolve(folder.getFileName() + ".jsonl");
                without += Files.exists(result) ? 0 : 1;
                List<AlertLine> alerts = Files.exists(result) ? AlertLine.read(result) : List.of();
                scores.add(new Score(TruthReading.read(folder.resolve("truth.json")), alerts));
            }
        }
        System.out.print(new ScoreTable(scores, without).write());
    }
}
