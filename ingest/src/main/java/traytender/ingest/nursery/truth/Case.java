package traytender.ingest.nursery.truth;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.crop.Limits;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Truth.Allowed;
import traytender.ingest.nursery.truth.Truth.Episode;
import traytender.ingest.nursery.truth.Truth.Forecast;
import traytender.ingest.nursery.truth.Truth.Where;

/**
 * One scenario before the judges: what they look at, and what they find. A scenario's trays hold one crop each and have the same limits at every
 * stage.
 *
 * <p><b>Not thread-safe.</b>
 */
final class Case {
    /** Minutes an alert may come after a possible stretch has ended. */
    static final int GRACE = 30;

    private final SiteFolder folder;
    private final List<JournalEntry> journal;
    private final Trace trace;
    private final int interval;
    private final List<Episode> episodes = new ArrayList<>();
    private final List<Allowed> allowed = new ArrayList<>();
    private final List<Forecast> forecasts = new ArrayList<>();

    Case(SiteFolder folder, List<JournalEntry> journal, Trace trace, Duration interval) {
        this.folder = folder;
        this.journal = journal;
        this.trace = trace;
        this.interval = (int) interval.toMinutes();
    }

    SiteFolder folder() {
        return folder;
    }

    Trace trace() {
        return trace;
    }

    /** The probes' interval in minutes. */
    int interval() {
        return interval;
    }

    List<JournalEntry> journal(String tray, EntryKind kind) {
        return journal.stream()
                .filter(entry -> entry.kind() == kind && entry.tray().equals(tray))
                .toList();
    }

    Limits limits(Tray tray) {
        return folder.crops().get(tray.sowings().get(0).crop()).limits(tray.stage());
    }

    Zone zone(SimulatedProbe probe, Tray tray) {
        return Trace.zone(probe, tray);
    }

    Truth truth(Truth.About about) {
        return new Truth(about, episodes, allowed, forecasts);
    }

    void must(
            List<AlertKind> kinds,
            Where where,
            Stretch plain,
            int earliest,
            int latest,
            List<ShutOffReason> reasons,
            boolean contract) {
        must(kinds, where, plain, earliest, latest, reasons, contract, null);
    }

    /** Something that must be found; nothing is asked of a program whose time to find it lies beyond the scenario's end. */
    void must(
            List<AlertKind> kinds,
            Where where,
            Stretch plain,
            int earliest,
            int latest,
            List<ShutOffReason> reasons,
            boolean contract,
            @Nullable Instant crosses) {
        if (latest < trace.minutes() - 2 * interval) {
            episodes.add(new Episode(
                    kinds,
                    where,
                    trace.time(plain.from()),
                    trace.time(plain.to()),
                    trace.time(Math.max(0, earliest)),
                    trace.time(latest),
                    reasons,
                    contract,
                    crosses));
        }
    }

    void may(List<AlertKind> kinds, Where where, int from, int to, List<ShutOffReason> reasons, String why) {
        allowed.add(new Allowed(kinds, where, trace.time(from), trace.time(to), reasons, why));
    }

    void crosses(Forecast forecast) {
        forecasts.add(forecast);
    }

    /**
     * A condition with a hold, by the fairness rule: grey where it is possible for at least the hold less two intervals; required where it is
     * certain for the hold, three intervals and half an hour.
     *
     * @param hold lasting-minutes
     * @param late minutes by which readings may come late
     * @param required whether it may be required at all
     */
    void lasting(
            AlertKind kind,
            Where where,
            List<ShutOffReason> reasons,
            java.util.function.IntPredicate possible,
            java.util.function.IntPredicate certain,
            int hold,
            int late,
            boolean required) {
        for (Stretch could : Stretch.where(0, trace.minutes(), possible)) {
            if (could.minutes() < hold - 2 * interval) {
                continue;
            }
            may(
                    List.of(kind),
                    where,
                    could.from(),
                    could.to() + GRACE + late,
                    reasons,
                    "condition holds or is within the margin");
            if (required) {
                Stretch.where(could.from(), could.to(), certain).stream()
                        .filter(plain -> plain.minutes() >= hold + 3 * interval + 30)
                        .findFirst()
                        .ifPresent(plain -> must(
                                List.of(kind),
                                where,
                                plain,
                                could.from(),
                                plain.from() + hold + Math.max(30, 4 * interval) + late,
                                reasons,
                                true));
            }
        }
    }
}
