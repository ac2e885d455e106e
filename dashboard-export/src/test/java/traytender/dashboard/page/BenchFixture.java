package traytender.dashboard.page;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.alert.Urgency;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.journal.EntryKind;
import traytender.config.journal.Growing;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.config.site.Zone;
import traytender.dashboard.limits.LimitsDesk;
import traytender.dashboard.notice.PeopleNotices;
import traytender.dashboard.program.Stores;
import traytender.dashboard.setup.Sensors;
import traytender.dashboard.setup.SiteDesk;
import traytender.ingest.intake.Intake;
import traytender.ingest.store.Act;
import traytender.ingest.store.JournalStore;
import traytender.ingest.store.KeptEntry;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SiteStore;
import traytender.rules.night.NightReport;
import traytender.rules.night.Nights;
import traytender.rules.view.MatView;
import traytender.rules.view.ProbeView;
import traytender.rules.view.RoomView;
import traytender.rules.view.TrayView;

/** A small bench whose every answer is known: one tray of 2 x 4 cells on a mat, read from a real site file. */
final class BenchFixture implements BenchFacts, BenchActs, AutoCloseable {
    static final Instant NOW = MadeUpBench.NOW;

    private static final String SITE = """
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            location: {latitude: 53.35, longitude: -6.26}
            rooms:
              - {id: propagation, kind: indoors, light: "06:00-22:00"}
            mats:
              - {id: mat-1, room: propagation, thermostat: own, relay: {topic: alder/mat-1/relay, rest: "rest"}}
            trays:
              - id: T01
                room: propagation
                bench: north
                mat: mat-1
                cells: {rows: 2, columns: 4}
                medium: peat-perlite
                stage: seedling
                sowings:
                  - {rows: 1-2, crop: tomato, variety: Copper Lantern}
            probes:
              - id: T01-moisture
                measures: moisture
                at: {tray: T01, row: 1, column: 1}
                message: {topic: alder/T01, format: json, value: /soil}
                calibration: {dry: 2900, wet: 1300}
                every: PT1M
              - id: propagation-air
                measures: air-temperature
                at: {room: propagation}
                message: {topic: alder/propagation, format: json, value: /air}
            messages:
              broker: built-in
              port: 0
            """;

    private static final String NOTICES = """
            mail: {server: mail.alder.example, from: bench@alder.example}
            people:
              - {name: Mira, mail: mira@alder.example, quiet: "21:00-06:30"}
            """;

    final List<Alert> alerts = new CopyOnWriteArrayList<>();
    final List<Consumer<Change>> listeners = new CopyOnWriteArrayList<>();
    volatile Health health = new Health(List.of(), List.of());
    private final SiteStore store;
    private final JournalStore journal;
    private final LimitsDesk limits;
    private final PeopleNotices people;
    private final SiteDesk desk;
    private final Intake intake;
    private volatile SiteFolder folder;

    private BenchFixture(SiteFolder folder) {
        this.folder = folder;
        var clock = Clock.fixed(NOW, ZoneOffset.UTC);
        this.store = Stores.toWrite(folder, clock);
        this.journal = store.journal();
        this.people = new PeopleNotices(
                SiteReader.notices(folder.path()),
                folder.site(),
                folder.path(),
                journal.notices(),
                Set::of,
                this::night,
                clock);
        this.limits = new LimitsDesk(() -> this.folder, store, this::takeOver, clock);
        this.desk = new SiteDesk(() -> this.folder, other -> this.folder = other, clock);
        this.intake = Intake.of(folder, store.readings(), clock, readings -> {});
        journal.add(new JournalEntry(
                NOW.minus(Duration.ofHours(20)), "T01", EntryKind.WATERED, Map.of("zones", "centre"), "in a hurry"));
        alerts.add(dry("a1", Urgency.TODAY, NOW.minusSeconds(600)));
        alerts.add(new Alert(
                "a2",
                AlertKind.MAT_SHUT_OFF,
                "T01",
                null,
                Zone.TRAY,
                Urgency.NOW,
                NOW.minusSeconds(900),
                null,
                ShutOffReason.TOO_HOT,
                35.5,
                35,
                "Cel",
                List.of("T01-moisture"),
                "Copper Lantern",
                "T01 is at 35.5 C.",
                "Unplug the mat.",
                null));
        alerts.add(new Alert(
                "a3",
                AlertKind.LIGHT_OUT,
                null,
                "propagation",
                null,
                Urgency.NOTE,
                NOW.minusSeconds(7200),
                NOW.minusSeconds(3600),
                null,
                Double.NaN,
                Double.NaN,
                "1",
                List.of(),
                null,
                "It was dark.",
                "Look.",
                null));
    }

    static BenchFixture in(Path folder) throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE);
        Files.writeString(folder.resolve("notices.yaml"), NOTICES);
        return new BenchFixture(SiteReader.read(folder));
    }

    static Alert dry(String id, Urgency urgency, Instant opened) {
        var forecast = new Alert.Forecast(NOW.plusSeconds(3600), NOW.plusSeconds(3000), NOW.plusSeconds(4200));
        return new Alert(
                id,
                AlertKind.DRYING_SOON,
                "T01",
                null,
                Zone.CORNER_FRONT_LEFT,
                urgency,
                opened,
                null,
                null,
                0.5,
                0.45,
                "1",
                List.of("T01-moisture"),
                "Copper Lantern",
                "Front left corner of T01 is at 50 %.",
                "Water it by 13:00.",
                forecast);
    }

    void open(Alert alert) {
        alerts.add(alert);
        tell(Change.ALERTS);
    }

    @Override
    public Site site() {
        return folder.site();
    }

    @Override
    public Instant now() {
        return NOW;
    }

    @Override
    public List<TrayView> trays() {
        return List.of(MadeUpBench.tray(folder, NOW));
    }

    @Override
    public List<TrayView> history(String tray, List<Instant> times) {
        return times.stream().map(time -> MadeUpBench.tray(folder, time)).toList();
    }

    @Override
    public List<RoomView> rooms() {
        return MadeUpBench.rooms();
    }

    @Override
    public List<MatView> mats() {
        return MadeUpBench.mats();
    }

    @Override
    public List<ProbeView> probes() {
        return MadeUpBench.probes(site());
    }

    @Override
    public List<Alert> alerts(AlertChoice choice) {
        return alerts.stream()
                .filter(alert -> choice == AlertChoice.ALL || alert.isOpen())
                .toList();
    }

    @Override
    public List<Reading> readings(Probe probe, Instant from, Instant to) {
        return MadeUpBench.readings(probe, from, to);
    }

    @Override
    public Crops crops() {
        return folder.crops();
    }

    @Override
    public List<KeptEntry> journal() {
        return journal.kept();
    }

    @Override
    public List<KeptEntry> write(List<JournalEntry> entries) {
        List<KeptEntry> kept = journal.write(entries);
        tell(Change.JOURNAL);
        return kept;
    }

    @Override
    public Optional<KeptEntry> withdraw(long number) {
        journal.setWithdrawn(List.of(number), true);
        tell(Change.JOURNAL);
        return journal.find(number);
    }

    @Override
    public Optional<KeptEntry> bringBack(long number) {
        journal.setWithdrawn(List.of(number), false);
        tell(Change.JOURNAL);
        return journal.find(number);
    }

    @Override
    public Optional<KeptEntry> correct(long number, JournalEntry right) {
        Optional<KeptEntry> wrong = journal.find(number).filter(KeptEntry::counts);
        wrong.ifPresent(kept -> journal.correct(kept.entry(), right));
        tell(Change.JOURNAL);
        return wrong.flatMap(kept -> journal.find(number))
                .map(KeptEntry::replacedBy)
                .flatMap(by -> journal.find(by));
    }

    @Override
    public Map<String, Act> marks() {
        var marks = new HashMap<String, Act>();
        journal.acts().acts().stream()
                .filter(act -> !act.undone())
                .forEach(act -> act.alerts().forEach(alert -> marks.put(alert, act)));
        return marks;
    }

    @Override
    public Act mark(Act.Mark mark, @Nullable Instant until, List<String> ids, List<JournalEntry> entries) {
        Act act = journal.acts().write(mark, NOW, until, ids, entries);
        tell(Change.ALERTS);
        return act;
    }

    @Override
    public Optional<Act> undo(long act) {
        Optional<Act> undone = journal.acts().undo(act);
        tell(Change.ALERTS);
        return undone;
    }

    @Override
    public LimitsDesk limits() {
        return limits;
    }

    @Override
    public PeopleNotices people() {
        return people;
    }

    @Override
    public SiteDesk siteDesk() {
        return desk;
    }

    @Override
    public Sensors sensors() {
        return new Sensors(intake, store.readings(), folder.path());
    }

    private void takeOver(Crops crops) {
        folder = new SiteFolder(folder.path(), folder.site(), crops);
    }

    /** Puts readings of the tray's moisture on disk: from full to 43 percent and watered again, on each of four days before now. */
    void storeReadings() {
        var readings = new ArrayList<RawReading>();
        for (int minute = 0; minute < 4 * 1440; minute += 10) {
            double moisture = 0.95 - 0.52 * (minute % 1440) / 1440.0;
            long timeMs = NOW.minus(Duration.ofDays(4)).toEpochMilli() + 60_000L * minute;
            readings.add(new RawReading("T01-moisture", timeMs, 2900 - 1600 * moisture, Marks.NONE));
        }
        store.readings().append(readings);
    }

    private void tell(Change change) {
        listeners.forEach(listener -> listener.accept(change));
    }

    @Override
    public void close() {
        limits.close();
        intake.close();
        store.close();
    }

    @Override
    public NightReport night(LocalDate date) {
        Growing growing = Growing.of(site(), folder.crops(), List.of());
        return Nights.report(site(), growing, date, NOW, probe -> readings(probe, Instant.EPOCH, NOW.plusSeconds(1)));
    }

    @Override
    public MessageCounts counts() {
        return new MessageCounts(12, 9, 1, 2, 3, Map.of("not-a-number", 2L));
    }

    @Override
    public List<Refusal> refusals() {
        return List.of(new Refusal("not-a-number", "alder/T01", 2, "<img src=x onerror=alert(1)>", NOW));
    }

    @Override
    public List<UnassignedTopic> unassigned() {
        return List.of(new UnassignedTopic("alder/T09 ünknown", "{\"soil\":1}", 3, NOW));
    }

    @Override
    public Optional<Outage> outage() {
        return Optional.of(new Outage(
                NOW.minusSeconds(12_600),
                NOW.minusSeconds(600),
                true,
                List.of(new Outage.Low("T01-temperature", 9.5, NOW.minusSeconds(540))),
                List.of(),
                List.of("T01-moisture"),
                List.of("mat-1"),
                List.of()));
    }

    @Override
    public Optional<LongTerm> longTerm() {
        return Optional.of(new LongTerm(1200, 88, 3, false));
    }

    @Override
    public Health health() {
        return health;
    }

    @Override
    public Subscription listen(Consumer<Change> listener) {
        listeners.add(listener);
        return () -> listeners.remove(listener);
    }
}
