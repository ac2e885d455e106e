package traytender.dashboard.program;

import java.net.URI;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.alert.Alert;
import traytender.config.alert.Urgency;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.notice.NoticeSettings;
import traytender.config.reading.Reading;
import traytender.config.site.Site;
import traytender.dashboard.limits.LimitsDesk;
import traytender.dashboard.notice.Heartbeats;
import traytender.dashboard.notice.PeopleNotices;
import traytender.dashboard.page.BenchFacts.Change;
import traytender.dashboard.page.BenchFacts.Health;
import traytender.dashboard.page.MatRest;
import traytender.dashboard.page.PageServer;
import traytender.dashboard.page.PageSettings;
import traytender.dashboard.report.StoredNight;
import traytender.dashboard.setup.Sensors;
import traytender.dashboard.setup.SiteDesk;
import traytender.ingest.intake.Intake;
import traytender.ingest.store.InfluxOutbox;
import traytender.ingest.store.SiteStore;
import traytender.ingest.store.StoreException;
import traytender.rules.AlertChange;

/**
 * The running program. Its parts start in the order in which they need each other, and stop in the other order; whatever fails at
 * the start stops what has started.
 *
 * <p><b>Safe from any thread.</b>
 */
public final class Program implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(Program.class);
    private static final Duration KEEPING_HOUSE = Duration.ofHours(1);
    /** A file saved by hand is in force so soon; our choice. */
    private static final Duration LOOKING = Duration.ofSeconds(2);
    /** By then what comes back by itself has come back; our choice. */
    private static final Duration OUTAGE_TOLD_AFTER = Duration.ofMinutes(15);

    private volatile SiteFolder folder;
    private final Clock clock;
    private final Listeners listeners = new Listeners();
    private final AtomicBoolean alertsChanged = new AtomicBoolean();
    private final ScheduledExecutorService housekeeper =
            Executors.newSingleThreadScheduledExecutor(task -> new Thread(task, "housekeeper"));

    private volatile boolean needsNewStart;

    private @Nullable SiteStore store;
    private @Nullable InfluxOutbox outbox;
    private @Nullable Intake intake;
    private @Nullable Notices notices;
    private @Nullable PeopleNotices people;
    private @Nullable Heartbeats heartbeats;
    private @Nullable LastOutage outage;
    private volatile @Nullable Watching watching;
    private @Nullable ProgramHealth health;
    private @Nullable LimitsDesk limits;
    private @Nullable Acts acts;
    private @Nullable SiteDesk desk;
    private @Nullable AlertNotices alertNotices;
    private @Nullable PageServer page;

    private Program(SiteFolder folder, Clock clock) {
        this.folder = folder;
        this.clock = clock;
    }

    /**
     * Starts everything; returns when the page answers. Messages are taken before that, and stored history is evaluated after it.
     *
     * @throws RuntimeException of the part that cannot start, with a message for the grower; nothing runs then
     */
    public static Program start(SiteFolder folder, PageSettings settings, Clock clock) {
        Program program = prepare(folder, settings, clock, true);
        program.tellOthers();
        program.watch();
        return program;
    }

    /** Opens the store, the built-in broker and the page; no message is taken and nothing watched yet. */
    static Program prepare(SiteFolder folder, PageSettings settings, Clock clock) {
        return prepare(folder, settings, clock, false);
    }

    private static Program prepare(SiteFolder folder, PageSettings settings, Clock clock, boolean takesAtOnce) {
        var program = new Program(folder, clock);
        try {
            NoticeSettings toPeople = SiteReader.notices(folder.path());
            program.openIntake();
            if (takesAtOnce) {
                // What comes is on disk and acknowledged while rules and page are still being loaded.
                part(program.intake).start();
            }
            program.startParts(settings, toPeople);
            return program;
        } catch (RuntimeException | Error e) {
            try {
                program.close();
            } catch (RuntimeException also) {
                e.addSuppressed(also);
            }
            throw e;
        }
    }

    private void openIntake() {
        var opened = Stores.toWrite(folder, clock);
        store = opened;
        opened.setAside().forEach(old -> log.error("A damaged database was set aside as {}; a new one was begun", old));
        // Before the first message, which would end the outage.
        outage = LastOutage.before(opened, folder.site(), folder.data(), clock);
        intake = Intake.of(folder, opened.readings(), clock, this::hand);
    }

    /** Hands on what is on disk. Before there is a watch nothing needs to be: it begins by reading what is stored. */
    private void hand(List<Reading> readings) {
        Watching watches = watching;
        if (watches != null) {
            watches.readings(readings);
        }
    }

    private void startParts(PageSettings settings, NoticeSettings toPeople) {
        SiteStore opened = part(store);
        Intake taking = part(intake);
        var sending = new Notices(taking::publish);
        notices = sending;
        var marks = new Marks(opened.journal().acts(), clock);
        var alerting = new AlertNotices(folder.site(), sending, marks::seen, this::noteRest);
        alertNotices = alerting;
        var telling = new PeopleNotices(
                toPeople,
                folder.site(),
                folder.path(),
                opened.journal().notices(),
                marks::seen,
                date -> StoredNight.of(part(watching).folder(), opened, date),
                clock);
        people = telling;
        var watches = new Watching(
                folder, opened, change -> tell(alerting, telling, change), () -> lookedAgain(alerting), clock);
        watching = watches;
        var limitsDesk = new LimitsDesk(watches::folder, opened, watches::judgeAnew, clock);
        limits = limitsDesk;
        var siteDesk = new SiteDesk(this::wanted, this::takeOver, clock);
        desk = siteDesk;
        var sendingOn = opened.influxOutbox(folder, Stores.MEANING).orElse(null);
        outbox = sendingOn;
        var beating = new Heartbeats(toPeople.heartbeat(), this::isWell);
        heartbeats = beating;
        LastOutage last = part(outage);
        var howItIs = new ProgramHealth(
                opened, sendingOn, taking, watches, siteDesk::notes, beating::trouble, this::outageWords, clock);
        health = howItIs;
        var sensors = new Sensors(taking, opened.readings(), folder.path());
        var doing = new Acts(opened.journal(), marks, limitsDesk, telling, siteDesk, sensors, watches, listeners);
        acts = doing;
        page = PageServer.start(
                new Facts(clock, opened, watches, marks, taking, listeners, howItIs, last), doing, settings);
    }

    /** Begins to take messages and to store them, and to tell others what is to be told. */
    void takeMessages() {
        part(intake).start();
        tellOthers();
    }

    private void tellOthers() {
        part(notices).start();
        part(people).start();
        if (outbox != null) {
            outbox.start();
        }
    }

    /** Begins to watch: stored history first, then live. */
    void watch() {
        part(watching).start();
        part(heartbeats).start();
        ScheduledFuture<?> unusedTale =
                housekeeper.schedule(this::tellOutage, OUTAGE_TOLD_AFTER.toSeconds(), TimeUnit.SECONDS);
        ScheduledFuture<?> unused = housekeeper.scheduleWithFixedDelay(
                this::keepHouse, KEEPING_HOUSE.toSeconds(), KEEPING_HOUSE.toSeconds(), TimeUnit.SECONDS);
        ScheduledFuture<?> unusedLook = housekeeper.scheduleWithFixedDelay(
                this::lookAtFiles, LOOKING.toSeconds(), LOOKING.toSeconds(), TimeUnit.SECONDS);
    }

    private static <T> T part(@Nullable T started) {
        return Objects.requireNonNull(started);
    }

    private void tell(AlertNotices alertNotices, PeopleNotices telling, AlertChange change) {
        alertNotices.changed(change);
        telling.changed(change);
        alertsChanged.set(true);
    }

    /** Not on the watcher's own thread, which has to take the entry. */
    private void noteRest(Alert alert) {
        try {
            housekeeper.execute(() -> MatRest.entry(
                            alert, clock.instant(), part(store).journal().entries())
                    .ifPresent(entry -> part(acts).write(List.of(entry))));
        } catch (RejectedExecutionException e) {
            log.info("A mat was told to rest while the program stops; the journal has it at the next start");
        }
    }

    private void lookedAgain(AlertNotices alertNotices) {
        alertNotices.call();
        // Only now do the watch's views show what has changed.
        if (alertsChanged.getAndSet(false)) {
            listeners.tell(Change.ALERTS);
        }
        listeners.tell(Change.TRAYS);
        listeners.tell(Change.COUNTS);
    }

    private Optional<String> outageWords() {
        return part(outage).now().map(new OutageWords(folder.site())::of);
    }

    /** Tells people of an outage that ended with this start, and of none before it. */
    private void tellOutage() {
        if (part(outage).isNew()) {
            outageWords().ifPresent(words -> part(people).say(Urgency.TODAY, "after an outage", words));
        }
    }

    /** A throw would end the schedule without a word. */
    private void keepHouse() {
        Duration keep = folder.site().store().keep();
        try {
            if (keep != null) {
                long removed = part(store).removeOlderThan(keep, clock.instant());
                log.info("{} readings older than {} removed", removed, keep);
            }
            long sealed = part(store).sealDays(folder.site().timezone(), clock.instant());
            log.info("{} readings of days that are over sealed", sealed);
        } catch (StoreException e) {
            log.warn("Old readings cannot be removed or sealed: {}", e.getMessage());
        }
    }

    /** A throw would end the schedule without a word. */
    private void lookAtFiles() {
        try {
            part(desk).look();
        } catch (RuntimeException e) {
            log.warn("The site's files cannot be looked at: {}", e.getMessage());
        }
    }

    /** Goes on with another site; what broker and store are told in it counts from the next start on. */
    private void takeOver(SiteFolder next) {
        Site before = folder.site();
        Site site = next.site();
        folder = next;
        part(intake).takeOver(site);
        if (outbox != null) {
            outbox.takeOver(site);
        }
        part(alertNotices).takeOver(site);
        part(people).takeOver(site);
        part(watching).judgeAnew(next);
        listeners.tell(Change.TRAYS);
        if (!site.messages().equals(before.messages()) || !site.store().equals(before.store())) {
            log.info("The site has another broker or store: that needs a new start");
            needsNewStart = true;
        }
    }

    /** The site it works by, or is to work by. */
    SiteFolder wanted() {
        return folder;
    }

    /** Whether it must be started anew to work as the site says, or to use its disk again now that this is well. */
    boolean needsNewStart() {
        return needsNewStart || hasMetDamage() || (part(intake).hasLostItsDisk() && DataFolder.canBeWritten(folder));
    }

    /** Whether it does its work. */
    Health health() {
        return part(health).now();
    }

    /** Where a browser on this machine finds the page. */
    public URI page() {
        return part(page).address();
    }

    /** Whether its threads live. */
    boolean isAlive() {
        return part(health).isAlive();
    }

    /** Whether history is evaluated and messages come. */
    public boolean isWell() {
        return health().isWell();
    }

    /** How many readings and unassigned messages have come. */
    long received() {
        var counts = part(intake).counts();
        return counts.received() + counts.unassigned();
    }

    /** The built-in broker's port for sensors; 0 while there is none. */
    public int brokerPort() {
        return part(intake).brokerPort();
    }

    /** Whether a database was met damaged; a new start sets it aside and begins a new one. */
    boolean hasMetDamage() {
        return part(store).hasMetDamage();
    }

    /** Stops every part in order; every acknowledged reading is on disk, and what was not acknowledged the broker sends again. */
    @Override
    public void close() {
        housekeeper.shutdownNow();
        var failures = new ArrayList<RuntimeException>();
        // Notices end before the connection they go over; the watcher ends after the intake that feeds it.
        for (AutoCloseable part :
                new AutoCloseable[] {page, heartbeats, limits, people, notices, intake, watching, outbox, store}) {
            close(part, failures);
        }
        if (!failures.isEmpty()) {
            RuntimeException first = failures.get(0);
            failures.subList(1, failures.size()).forEach(first::addSuppressed);
            throw first;
        }
    }

    private static void close(@Nullable AutoCloseable part, List<RuntimeException> failures) {
        if (part == null) {
            return;
        }
        try {
            part.close();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (Exception e) {
            failures.add(
                    e instanceof RuntimeException unchecked ? unchecked : new ProgramException(String.valueOf(e), e));
        }
    }
}
