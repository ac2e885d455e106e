package traytender.dashboard.notice;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.alert.Urgency;
import traytender.config.notice.MailServer;
import traytender.config.notice.NoticeSettings;
import traytender.config.notice.Person;
import traytender.config.site.Site;
import traytender.dashboard.record.Json;
import traytender.ingest.store.NoticeStore;
import traytender.ingest.store.StoreException;
import traytender.ingest.store.StoredNotice;
import traytender.rules.AlertChange;
import traytender.rules.AlertChange.What;
import traytender.rules.night.NightReport;

/**
 * Sends notices to people from a thread of its own. What is to be sent is on disk before it is tried, and tried again, ever more
 * rarely, for a day; so neither a server that is away nor a restart loses one. <b>Safe from any thread.</b>
 */
public final class PeopleNotices implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(PeopleNotices.class);
    private static final long LOOK_MS = 2_000;
    /** First wait before another try; it doubles each time. All three our choice. */
    static final Duration RETRY = Duration.ofSeconds(30);

    static final Duration LONGEST_RETRY = Duration.ofHours(1);
    static final Duration GIVE_UP = Duration.ofHours(24);
    /** So many kept notices tell what was told before a restart. */
    private static final int REMEMBERED = 5_000;

    private static final long LONGEST_STOP_MS = 5_000;

    private final NoticeSettings settings;
    private final NoticeStore store;
    private final Supplier<Set<String>> seen;
    private final Clock clock;
    private final NoticePlan plan;
    private final NightMail night;
    private final @Nullable Mailer mailer;
    private final Webhook webhook;
    private final Thread thread = new Thread(this::work, "notices-to-people");
    private volatile boolean stopping;

    /**
     * @param folder the site folder, in which the secrets' files stand
     * @param seen ids of the alerts that were answered
     * @param nights a night's report by the date of its evening, as far as it has come
     */
    public PeopleNotices(
            NoticeSettings settings,
            Site site,
            Path folder,
            NoticeStore store,
            Supplier<Set<String>> seen,
            Function<LocalDate, NightReport> nights,
            Clock clock) {
        this.settings = settings;
        this.store = store;
        this.seen = seen;
        this.clock = clock;
        List<StoredNotice> before = store.newest(REMEMBERED);
        this.plan = new NoticePlan(settings, site, before);
        this.night = new NightMail(settings, site, nights, before);
        MailServer server = settings.mail();
        this.mailer = server == null ? null : new Mailer(server, folder);
        this.webhook = new Webhook(folder, clock);
    }

    /** Begins to send; does nothing where nobody is to hear of anything. */
    public void start() {
        if (!settings.people().isEmpty()) {
            thread.start();
        }
    }

    /** Who hears of alerts. */
    public NoticeSettings settings() {
        return settings;
    }

    /** What was sent or waits, the newest first. */
    public List<StoredNotice> newest(int most) {
        return store.newest(most);
    }

    /** Writes under another name and by another clock from now on. */
    public void takeOver(Site site) {
        synchronized (plan) {
            plan.site(site);
        }
        night.takeOver(site);
    }

    /** Takes a change of an alert; returns at once. */
    public void changed(AlertChange change) {
        synchronized (plan) {
            if (change.what() != What.WITHDRAWN && change.alert().isOpen()) {
                plan.open(change.alert(), clock.instant());
            } else {
                plan.close(change.alert(), clock.instant());
            }
        }
    }

    /**
     * Sends a person a notice that says it is a test, by every way that person has.
     *
     * @return whether there is such a person
     */
    public boolean test(String name) {
        Optional<Person> found = settings.find(name);
        found.ifPresent(person -> {
            Instant now = clock.instant();
            if (person.mail() != null) {
                store.add(List.of(StoredNotice.fresh(
                        name,
                        "mail",
                        "Traytender: a test",
                        "This is a test. Alerts would come this way.\n",
                        List.of(),
                        now)));
            }
            if (person.webhook() != null) {
                store.add(List.of(StoredNotice.fresh(name, "webhook", "test", "{\"test\":true}", List.of(), now)));
            }
        });
        return found.isPresent();
    }

    /**
     * Sends everybody who hears of that urgency something that is no alert.
     *
     * @param what a few words for the subject
     */
    public void say(Urgency urgency, String what, String text) {
        Instant now = clock.instant();
        List<StoredNotice> said = new ArrayList<>();
        for (Person person : settings.people()) {
            if (person.mail() != null && person.hears(urgency)) {
                said.add(StoredNotice.fresh(person.name(), "mail", "Traytender: " + what, text + "\n", List.of(), now));
            }
            if (person.webhook() != null && person.hears(urgency)) {
                String json = Json.write(Json.object().put("says", text));
                said.add(StoredNotice.fresh(person.name(), "webhook", what, json, List.of(), now));
            }
        }
        if (!said.isEmpty()) {
            store.add(said);
        }
    }

    private void work() {
        try {
            while (!stopping) {
                look();
                TimeUnit.MILLISECONDS.sleep(LOOK_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Writes down what is due and tries what waits, once; on the calling thread. */
    void look() throws InterruptedException {
        try {
            List<StoredNotice> due;
            synchronized (plan) {
                due = plan.due(clock.instant(), seen.get());
            }
            if (!due.isEmpty()) {
                store.add(due);
            }
            List<StoredNotice> nights = night.due(clock.instant());
            if (!nights.isEmpty()) {
                store.add(nights);
            }
            for (StoredNotice notice : store.waiting()) {
                if (!notice.next().isAfter(clock.instant()) && !stopping) {
                    store.update(tried(notice));
                }
            }
        } catch (StoreException e) {
            log.error("Notices cannot be kept: {}", e.getMessage());
        }
    }

    private StoredNotice tried(StoredNotice notice) throws InterruptedException {
        Instant now = clock.instant();
        try {
            send(notice);
            return notice.after(StoredNotice.SENT, now, "");
        } catch (UndeliveredException e) {
            String why = String.valueOf(e.getMessage());
            if (!now.isBefore(notice.made().plus(GIVE_UP))) {
                log.error("A notice to {} is given up: {}", notice.person(), why);
                return notice.after(StoredNotice.GIVEN_UP, now, why);
            }
            log.warn("A notice to {} has to wait: {}", notice.person(), why);
            return notice.after(StoredNotice.WAITING, now.plus(pause(notice.tries())), why);
        }
    }

    private static Duration pause(int tries) {
        Duration doubled = RETRY.multipliedBy(1L << Math.min(tries, 20));
        return doubled.compareTo(LONGEST_RETRY) < 0 ? doubled : LONGEST_RETRY;
    }

    private void send(StoredNotice notice) throws UndeliveredException, InterruptedException {
        Person person = settings.find(notice.person())
                .orElseThrow(() -> new UndeliveredException("nobody of that name is in notices.yaml any more", null));
        if (notice.way().equals("webhook") && person.webhook() != null) {
            webhook.post(person.webhook(), Objects.requireNonNull(person.secretFile()), notice.body());
        } else if (notice.way().equals("mail") && person.mail() != null && mailer != null) {
            mailer.send(person.mail(), notice.subject(), notice.body(), null, notice.made());
        } else if (NightMail.isOne(notice) && person.mail() != null && mailer != null) {
            mailer.send(person.mail(), notice.subject(), notice.body(), attachment(notice), notice.made());
        } else {
            throw new UndeliveredException("notices.yaml gives no " + notice.way() + " for it any more", null);
        }
    }

    private NightMail.Attachment attachment(StoredNotice notice) throws UndeliveredException {
        try {
            return night.attachment(notice);
        } catch (IOException e) {
            throw new UndeliveredException("the night's report cannot be made: " + e.getMessage(), e);
        }
    }

    @Override
    public void close() {
        stopping = true;
        thread.interrupt();
        try {
            thread.join(LONGEST_STOP_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
