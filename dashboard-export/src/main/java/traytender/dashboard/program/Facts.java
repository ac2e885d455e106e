package traytender.dashboard.program;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.alert.Alert;
import traytender.config.crop.Crops;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.dashboard.page.BenchFacts;
import traytender.dashboard.page.Outage;
import traytender.dashboard.report.StoredNight;
import traytender.ingest.intake.Counts;
import traytender.ingest.intake.Intake;
import traytender.ingest.store.Act;
import traytender.ingest.store.KeptEntry;
import traytender.ingest.store.SiteStore;
import traytender.ingest.store.StoreException;
import traytender.rules.night.NightReport;
import traytender.rules.view.MatView;
import traytender.rules.view.ProbeView;
import traytender.rules.view.RoomView;
import traytender.rules.view.TrayView;

/** What the page asks, answered by the program's parts. */
final class Facts implements BenchFacts {
    private static final Logger log = LoggerFactory.getLogger(Facts.class);
    private final Clock clock;
    private final SiteStore store;
    private final Watching watching;
    private final Marks marks;
    private final Intake intake;
    private final Listeners listeners;
    private final ProgramHealth health;
    private final LastOutage outage;

    Facts(
            Clock clock,
            SiteStore store,
            Watching watching,
            Marks marks,
            Intake intake,
            Listeners listeners,
            ProgramHealth health,
            LastOutage outage) {
        this.clock = clock;
        this.store = store;
        this.watching = watching;
        this.marks = marks;
        this.intake = intake;
        this.listeners = listeners;
        this.health = health;
        this.outage = outage;
    }

    @Override
    public Site site() {
        return watching.judged().site();
    }

    @Override
    public Instant now() {
        return clock.instant();
    }

    @Override
    public List<TrayView> trays() {
        return watching.watch().trays();
    }

    @Override
    public List<TrayView> history(String tray, List<Instant> times) {
        return StoredTrays.of(watching.folder(), store, tray, times);
    }

    @Override
    public List<RoomView> rooms() {
        return watching.watch().rooms();
    }

    @Override
    public List<MatView> mats() {
        return watching.watch().mats();
    }

    @Override
    public List<ProbeView> probes() {
        return watching.watch().probes();
    }

    @Override
    public List<Alert> alerts(AlertChoice choice) {
        var alerts = new ArrayList<>(watching.watch().alerts());
        if (choice == AlertChoice.OPEN) {
            alerts.removeIf(alert -> !alert.isOpen());
        } else {
            addOlder(alerts);
        }
        alerts.sort(Comparator.comparing(Alert::opened).reversed());
        return List.copyOf(alerts);
    }

    /** Alerts from before the oldest reading still kept stand in the journal alone. */
    private void addOlder(List<Alert> alerts) {
        Set<String> known = new HashSet<>();
        alerts.forEach(alert -> known.add(alert.id()));
        store.journal().alerts().stream()
                .filter(alert -> !known.contains(alert.id()) && !alert.isOpen())
                .forEach(alerts::add);
    }

    @Override
    public Map<String, Act> marks() {
        return marks.newest();
    }

    @Override
    public List<Reading> readings(Probe probe, Instant from, Instant to) {
        try {
            return store.history().readings(probe, from, to);
        } catch (StoreException e) {
            // The long-term database is away, as the page says anyway: what is on this disk can still be drawn.
            log.warn("Only what is on this disk is shown: {}", e.getMessage());
            return store.readings().readings(probe, from, to);
        }
    }

    @Override
    public Crops crops() {
        return watching.folder().crops();
    }

    @Override
    public List<KeptEntry> journal() {
        return store.journal().kept();
    }

    @Override
    public NightReport night(LocalDate date) {
        return StoredNight.of(watching.folder(), store, date);
    }

    @Override
    public MessageCounts counts() {
        Counts counts = intake.counts();
        return new MessageCounts(
                counts.received(),
                counts.stored(),
                counts.repeated(),
                counts.refused(),
                counts.unassigned(),
                counts.refusals());
    }

    @Override
    public List<Refusal> refusals() {
        return intake.refusals().stream()
                .map(refusal -> new Refusal(
                        refusal.cause(), refusal.topic(), refusal.count(), refusal.firstBytes(), refusal.last()))
                .toList();
    }

    @Override
    public List<UnassignedTopic> unassigned() {
        return intake.unassigned().stream()
                .map(topic -> new UnassignedTopic(topic.topic(), topic.payload(), topic.count(), topic.last()))
                .toList();
    }

    @Override
    public Health health() {
        return health.now();
    }

    @Override
    public Optional<Outage> outage() {
        return outage.now();
    }

    @Override
    public Optional<LongTerm> longTerm() {
        return health.outbox()
                .map(state -> new LongTerm(state.pending(), state.sent(), state.setAside(), state.trouble() == null));
    }

    @Override
    public Subscription listen(Consumer<Change> listener) {
        return listeners.add(listener);
    }
}
