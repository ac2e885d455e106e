package traytender.ingest.nursery.truth;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.crop.Limits;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Cell;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Truth.Allowed;
import traytender.ingest.nursery.truth.Truth.Episode;
import traytender.ingest.nursery.truth.Truth.Forecast;
import traytender.ingest.nursery.truth.Truth.Where;

/**
 * One scenario before the judges: what they look at, and what they find. All limits of a tray are the same at every stage and for all that grows
 * in it, but for its dry lines.
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

    /** Whether any crop of the tray is potted up, and not planted straight from its plugs. */
    boolean isPottedUp(Tray tray) {
        return tray.sowings().stream()
                .anyMatch(sowing -> folder.crops().get(sowing.crop()).pottedUp());
    }

    Limits limits(Tray tray) {
        return folder.crops().get(tray.sowings().get(0).crop()).limits(tray.stage());
    }

    /** The limits of what grows at a moisture probe. */
    Limits limitsAt(SimulatedProbe probe, Tray tray) {
        Cell cell = probe.cell().orElseThrow();
        return tray.sowings().stream()
                .filter(sowing -> sowing.block().contains(cell))
                .findFirst()
                .map(sowing -> folder.crops()
                        .get(sowing.crop())
                        .limits(Objects.requireNonNullElse(sowing.stage(), tray.stage())))
                .orElse(limits(tray));
    }

    Zone zone(SimulatedProbe probe, Tray tray) {
        return Trace.zone(probe, tray);
    }

    /** Whether the site's last frost lies five weeks and more before the first reading. */
    boolean frostsArePast() {
        var frost = folder.site().lastFrost();
        var first = trace.start().atZone(folder.site().timezone()).toLocalDate();
        return frost != null && !frost.atYear(first.getYear()).plusWeeks(5).isAfter(first);
    }

    /** Whether every moisture probe's cell went from 80 percent and more below its dry line within so many hours of a watering. */
    boolean driesWithin(Tray tray, Trace.Spell spell, double hours) {
        int settled = spell.from() + 60;
        int dry = spell.from() + (int) (60 * hours);
        return dry < Math.min(spell.to(), trace.minutes())
                && trace.moistureOf(tray.id()).stream()
                        .allMatch(probe -> trace.course(probe).low(settled) > 0.8
                                && trace.course(probe).high(dry)
                                        < limitsAt(probe, tray).dryLine());
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
