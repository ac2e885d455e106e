package traytender.dashboard.limits;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Stream;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.Details;
import traytender.config.journal.EntryKind;
import traytender.config.journal.Growing;
import traytender.config.journal.JournalEntry;
import traytender.config.journal.SowingNow;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Zone;
import traytender.dashboard.limits.LineMoment.Why;
import traytender.ingest.store.Act;
import traytender.ingest.store.Act.Mark;
import traytender.ingest.store.SiteStore;

/** Finds the {@link LineMoment}s in the journal, the marks, the alerts and the stored readings of a site. */
final class LineMoments {
    /** A watering this long after its dry alert opened came late; our choice. */
    static final Duration LATE = Duration.ofHours(1);
    /** A water's rise that shows after an alert closed; our choice, far beyond a probe's noise. */
    private static final double WATERED = 0.1;
    /** How old the reading may be that tells of a moment. */
    private static final Duration NEAR = Duration.ofMinutes(30);

    private static final Set<AlertKind> ABOUT_DRYNESS = Set.of(AlertKind.DRY, AlertKind.DRYING_SOON);

    private final SiteFolder folder;
    private final SiteStore store;
    private final List<JournalEntry> journal;
    private final Growing growing;
    private final List<LineMoment> found = new ArrayList<>();

    private LineMoments(SiteFolder folder, SiteStore store) {
        this.folder = folder;
        this.store = store;
        this.journal = store.journal().entries();
        this.growing = Growing.of(folder.site(), folder.crops(), journal);
    }

    /** All of them, in order of time. */
    static List<LineMoment> of(SiteFolder folder, SiteStore store) {
        var moments = new LineMoments(folder, store);
        moments.wanted();
        moments.late();
        moments.notSo();
        moments.found.sort(Comparator.comparing(LineMoment::at));
        return List.copyOf(moments.found);
    }

    private void wanted() {
        for (JournalEntry entry : journal) {
            if (entry.kind() != EntryKind.WANTS_WATER) {
                continue;
            }
            List<Zone> zones = Details.of(entry).zones();
            // Without a zone the grower means the tray as it looks: its driest part.
            moistureProbes(entry.tray(), entry.time())
                    .filter(probe -> zones.isEmpty() || zones.contains(zone(probe, entry.time())))
                    .flatMap(probe -> moment(probe, entry.time(), entry.time(), Why.WANTED).stream())
                    .min(Comparator.comparingDouble(LineMoment::moisture))
                    .ifPresent(found::add);
        }
    }

    private Stream<Probe> moistureProbes(String tray, Instant time) {
        return folder.site().probes().stream()
                .filter(probe -> probe.measures() == Quantity.MOISTURE)
                .filter(probe -> probe.at().at(time).orElse(null) instanceof Place.InCell place
                        && place.tray().equals(tray));
    }

    private Zone zone(Probe probe, Instant time) {
        return growing.cell(probe, time)
                .flatMap(cell -> probe.at()
                        .at(time)
                        .map(place -> Zone.of(
                                cell,
                                growing.at(((Place.InCell) place).tray(), time).cells())))
                .orElse(Zone.TRAY);
    }

    private void late() {
        for (Alert alert : store.journal().alerts()) {
            Instant closed = alert.closed();
            if (alert.kind() != AlertKind.DRY || closed == null) {
                continue;
            }
            Duration waited = Duration.between(alert.opened(), closed);
            if (waited.compareTo(LATE) >= 0) {
                probe(alert)
                        .filter(probe -> wasWatered(probe, closed))
                        .flatMap(probe ->
                                moment(probe, alert.opened(), alert.opened().minus(waited), Why.LATE))
                        .ifPresent(found::add);
            }
        }
    }

    private boolean wasWatered(Probe probe, Instant closed) {
        OptionalDouble before = moisture(probe, closed.minus(NEAR));
        OptionalDouble after = moisture(probe, closed.plus(NEAR));
        return before.isPresent() && after.isPresent() && after.getAsDouble() > before.getAsDouble() + WATERED;
    }

    private void notSo() {
        Map<String, Alert> byId = new HashMap<>();
        Stream.concat(store.journal().alerts().stream(), store.journal().withdrawnAlerts().stream())
                .forEach(alert -> byId.put(alert.id(), alert));
        for (Act act : store.journal().acts().acts()) {
            if (act.mark() != Mark.NOT_SO || act.undone()) {
                continue;
            }
            act.alerts().stream()
                    .map(byId::get)
                    .filter(alert -> alert != null && ABOUT_DRYNESS.contains(alert.kind()))
                    .forEach(alert -> probe(alert)
                            .flatMap(probe -> moment(probe, act.at(), act.at(), Why.NOT_SO))
                            .ifPresent(found::add));
        }
    }

    /** The moisture probe that an alert rests on. */
    private Optional<Probe> probe(Alert alert) {
        return alert.probes().stream()
                .flatMap(id -> folder.site().probe(id).stream())
                .filter(probe -> probe.measures() == Quantity.MOISTURE)
                .findFirst();
    }

    /** A moment as its probe tells it: told at one time, measured at another. */
    private Optional<LineMoment> moment(Probe probe, Instant at, Instant measured, Why why) {
        OptionalDouble moisture = moisture(probe, measured);
        Optional<SowingNow> sowing = growing.sowing(probe, at).filter(SowingNow::isWatched);
        if (moisture.isEmpty() || sowing.isEmpty()) {
            return Optional.empty();
        }
        Place place = probe.at().at(at).orElseThrow();
        return Optional.of(new LineMoment(
                ((Place.InCell) place).tray(),
                zone(probe, at),
                sowing.get().sowing().crop(),
                sowing.get().stage(),
                at,
                why,
                moisture.getAsDouble()));
    }

    /** The middle of what the probe said in the half hour up to a time. */
    private OptionalDouble moisture(Probe probe, Instant time) {
        double[] values = store.readings().readings(probe, time.minus(NEAR), time.plusMillis(1)).stream()
                .filter(reading -> !reading.has(Marks.RANGE) && !reading.has(Marks.SENSOR_ERROR))
                .mapToDouble(Reading::value)
                .sorted()
                .toArray();
        return values.length == 0 ? OptionalDouble.empty() : OptionalDouble.of(values[values.length / 2]);
    }
}
