package traytender.ingest.nursery.score;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.site.Zone;
import traytender.ingest.nursery.truth.Truth;
import traytender.ingest.nursery.truth.Truth.Allowed;
import traytender.ingest.nursery.truth.Truth.Episode;
import traytender.ingest.nursery.truth.Truth.Where;

/**
 * One scenario's alerts against its truth.
 *
 * <ul>
 *   <li>An alert is <i>good</i> when it opens between an episode's earliest and the later of its latest and half an hour after its end; <i>grey</i>
 *       inside an allowed stretch, or after the last reading; else <i>wrong</i>.
 *   <li>An episode is <i>found</i> by a good alert that opens by its latest, or by a rightful one opened earlier and still open; <i>late</i> by
 *       a good one after that; else <i>missed</i>.
 *   <li>Reopened: the same kind, place, zone and reason again within half an hour of closing, or while open.
 * </ul>
 */
public final class Score {
    private static final Duration GRACE = Duration.ofMinutes(30);
    private static final Duration AFTER_END = Duration.ofMinutes(2);
    private static final Set<AlertKind> OF_THE_TRAY = Set.of(
            AlertKind.UNEVEN_HEAT,
            AlertKind.MAT_SHUT_OFF,
            AlertKind.MAT_NOT_HEATING,
            AlertKind.MAT_NOT_STOPPING,
            AlertKind.ROOT_COLD,
            AlertKind.NIGHT_COLD,
            AlertKind.AIR_HOT,
            AlertKind.FROST_RISK,
            AlertKind.DAMP_AIR,
            AlertKind.LIGHT_OUT,
            AlertKind.POT_UP_DUE,
            AlertKind.MOVE_WAIT,
            AlertKind.FEED_WAIT,
            AlertKind.PLANT_OUT_READY);

    /** How an episode fared. */
    public enum Fate {
        FOUND,
        LATE,
        MISSED
    }

    /**
     * One episode and the alert that answers it.
     *
     * @param alert null when missed
     */
    public record Answer(
            Episode episode, Fate fate, @Nullable AlertLine alert) {}

    /**
     * A forecast held against the truth.
     *
     * @param errorHours expected less true crossing
     * @param leadHours from the alert to the true crossing
     * @param guessHours the same of one who knows how the place dries but has the water from the probe alone: what no program can
     *     mend; NaN when unknown
     * @param inside whether earliest to latest holds the true crossing
     */
    public record ForecastError(double errorHours, double leadHours, double guessHours, boolean inside) {}

    private final Truth truth;
    private final List<AlertLine> alerts;
    private final Map<AlertKind, Tally> tallies = new EnumMap<>(AlertKind.class);
    private final List<Answer> answers = new ArrayList<>();
    private final List<AlertLine> wrong = new ArrayList<>();
    private final List<ForecastError> forecasts = new ArrayList<>();

    /** Scores at once. */
    public Score(Truth truth, List<AlertLine> alerts) {
        this.truth = truth;
        this.alerts = List.copyOf(alerts);
        alerts.forEach(this::judge);
        truth.episodes().forEach(this::answer);
        reopenings();
        alerts.forEach(this::forecast);
    }

    public Truth truth() {
        return truth;
    }

    Map<AlertKind, Tally> tallies() {
        return tallies;
    }

    public List<Answer> answers() {
        return List.copyOf(answers);
    }

    /** Alerts that were false. */
    public List<AlertLine> wrong() {
        return List.copyOf(wrong);
    }

    public List<ForecastError> forecasts() {
        return List.copyOf(forecasts);
    }

    private Tally tally(AlertKind kind) {
        return tallies.computeIfAbsent(kind, each -> new Tally());
    }

    private void judge(AlertLine alert) {
        if (truth.episodes().stream().anyMatch(episode -> isGood(episode, alert))) {
            tally(alert.kind()).good++;
        } else if (isGrey(alert)) {
            tally(alert.kind()).grey++;
        } else {
            tally(alert.kind()).wrong++;
            wrong.add(alert);
        }
    }

    private boolean isGrey(AlertLine alert) {
        return alert.opened().isAfter(truth.about().to().plus(AFTER_END))
                || truth.allowed().stream().anyMatch(allowed -> isAllowed(allowed, alert));
    }

    private static boolean isAllowed(Allowed allowed, AlertLine alert) {
        return fits(allowed.kinds(), allowed.where(), alert)
                && reasonFits(allowed.reasons(), alert)
                && !alert.opened().isBefore(allowed.from())
                && !alert.opened().isAfter(allowed.to());
    }

    private static boolean isGood(Episode episode, AlertLine alert) {
        Instant over = episode.to().plus(GRACE);
        Instant last = over.isAfter(episode.latest()) ? over : episode.latest();
        return fits(episode.kinds(), episode.where(), alert)
                && reasonFits(episode.reasons(), alert)
                && !alert.opened().isBefore(episode.earliest())
                && !alert.opened().isAfter(last);
    }

    private static boolean fits(List<AlertKind> kinds, Where where, AlertLine alert) {
        boolean kind = kinds.isEmpty() || kinds.contains(alert.kind());
        boolean zone = where.zones().isEmpty()
                || OF_THE_TRAY.contains(alert.kind())
                || where.zones().contains(alert.zone());
        return kind && zone && where.places().contains(alert.place());
    }

    private static boolean reasonFits(List<ShutOffReason> reasons, AlertLine alert) {
        return reasons.isEmpty() || alert.kind() != AlertKind.MAT_SHUT_OFF || reasons.contains(alert.reason());
    }

    private void answer(Episode episode) {
        Tally tally = tally(episode.kinds().get(0));
        tally.required++;
        Answer answer = answerTo(episode);
        answers.add(answer);
        switch (answer.fate()) {
            case FOUND -> tally.found++;
            case LATE -> tally.late++;
            case MISSED -> tally.missed++;
        }
        AlertLine alert = answer.alert();
        if (alert != null && !alert.opened().isBefore(episode.from())) {
            tally.delays.add(minutes(episode.from(), alert.opened()));
        }
    }

    private Answer answerTo(Episode episode) {
        List<AlertLine> good =
                alerts.stream().filter(alert -> isGood(episode, alert)).toList();
        Optional<AlertLine> inTime = good.stream()
                .filter(alert -> !alert.opened().isAfter(episode.latest()))
                .findFirst();
        Optional<AlertLine> found = inTime.isPresent() ? inTime : stillOpen(episode);
        if (found.isPresent()) {
            return new Answer(episode, Fate.FOUND, found.get());
        }
        return good.isEmpty() ? new Answer(episode, Fate.MISSED, null) : new Answer(episode, Fate.LATE, good.get(0));
    }

    private Optional<AlertLine> stillOpen(Episode episode) {
        return alerts.stream()
                .filter(alert -> fits(episode.kinds(), episode.where(), alert)
                        && alert.opened().isBefore(episode.earliest()))
                .filter(alert -> alert.closed() == null || alert.closed().isAfter(episode.earliest()))
                .filter(alert -> !wrong.contains(alert))
                .findFirst();
    }

    private record Place(
            AlertKind kind,
            String place,
            Zone zone,
            @Nullable ShutOffReason reason) {}

    private void reopenings() {
        var last = new HashMap<Place, AlertLine>();
        for (AlertLine alert : alerts) {
            AlertLine before = last.put(new Place(alert.kind(), alert.place(), alert.zone(), alert.reason()), alert);
            if (before != null && opensAgain(before, alert)) {
                tally(alert.kind()).reopened++;
            }
        }
    }

    private static boolean opensAgain(AlertLine before, AlertLine alert) {
        Instant closed = before.closed();
        return closed == null || alert.opened().isBefore(closed.plus(GRACE));
    }

    private void forecast(AlertLine alert) {
        AlertLine.Forecast told = alert.forecast();
        if (alert.kind() != AlertKind.DRYING_SOON || told == null) {
            return;
        }
        forecastOf(alert)
                .ifPresent(one -> forecasts.add(new ForecastError(
                        minutes(one.crosses(), told.expected()) / 60,
                        minutes(alert.opened(), one.crosses()) / 60,
                        one.guessed() == null ? Double.NaN : minutes(one.crosses(), one.guessed()) / 60,
                        !one.crosses().isBefore(told.earliest())
                                && !one.crosses().isAfter(told.latest()))));
    }

    /** When the alert's zone would cross its dry line after the alert's opening. */
    Optional<Instant> crossing(AlertLine alert) {
        return forecastOf(alert).map(Truth.Forecast::crosses);
    }

    private Optional<Truth.Forecast> forecastOf(AlertLine alert) {
        return truth.forecasts().stream()
                .filter(one -> alert.place().equals("tray:" + one.tray()) && one.zone() == alert.zone())
                .filter(one ->
                        !alert.opened().isBefore(one.since()) && alert.opened().isBefore(one.until()))
                .findFirst();
    }

    static double minutes(Instant from, Instant to) {
        return Objects.requireNonNull(Duration.between(from, to)).toSeconds() / 60.0;
    }
}
