package traytender.dashboard.notice;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import traytender.config.alert.Alert;
import traytender.config.alert.Urgency;
import traytender.config.notice.NoticeSettings;
import traytender.config.notice.Person;
import traytender.config.site.Site;
import traytender.dashboard.record.AlertJson;
import traytender.ingest.store.StoredNotice;

/**
 * Who hears of what, and when. A mail waits a little for what comes with it, so that a mat's failure that raises twelve alerts is
 * one mail; in quiet hours only what is urgent now goes out, the rest as one digest when they end; an alert of urgency {@code now}
 * is said again until it was seen or has closed. Webhooks get every record, opened and closed, at once. All waits are our choice.
 *
 * <p>It knows no clock and sends nothing. <b>Not thread-safe.</b>
 */
final class NoticePlan {
    static final Duration BUNDLE_NOW = Duration.ofMinutes(1);
    static final Duration BUNDLE = Duration.ofMinutes(5);
    /** Between two mails to one person. */
    static final Duration GAP_NOW = Duration.ofMinutes(3);

    static final Duration GAP = Duration.ofMinutes(30);
    static final Duration REPEAT = Duration.ofMinutes(30);
    private static final String CLOSED = "/closed";
    private static final Comparator<Alert> URGENT_FIRST = Comparator.comparing(Alert::urgency)
            .thenComparing(Alert::place)
            .thenComparing(Alert::opened)
            .thenComparing(Alert::id);

    private final NoticeSettings settings;
    private ZoneId zone;
    private NoticeWords words;
    private final Map<String, Alert> open = new LinkedHashMap<>();
    /** When an alert was first heard of. */
    private final Map<String, Instant> since = new HashMap<>();
    /** By person and way, what was told and when last. */
    private final Map<String, Map<String, Instant>> told = new HashMap<>();

    private final List<StoredNotice> posts = new ArrayList<>();

    /** @param before what was sent or waits already, in any order */
    NoticePlan(NoticeSettings settings, Site site, List<StoredNotice> before) {
        this.settings = settings;
        this.zone = site.timezone();
        this.words = new NoticeWords(site, settings.page());
        for (StoredNotice notice : before) {
            notice.alerts()
                    .forEach(id -> told(notice.person(), notice.way())
                            .merge(id, notice.made(), (one, other) -> one.isAfter(other) ? one : other));
        }
    }

    /** The site has another name or clock. */
    void site(Site site) {
        zone = site.timezone();
        words = new NoticeWords(site, settings.page());
    }

    private Map<String, Instant> told(String person, String way) {
        return told.computeIfAbsent(person + "\n" + way, key -> new HashMap<>());
    }

    /** An alert opened, changed, or was found open. */
    void open(Alert alert, Instant now) {
        open.put(alert.id(), alert);
        since.putIfAbsent(alert.id(), now);
        post(alert, alert.id(), now);
    }

    /** An alert closed or was withdrawn. */
    void close(Alert alert, Instant now) {
        open.remove(alert.id());
        since.remove(alert.id());
        post(alert, alert.id() + CLOSED, now);
    }

    private void post(Alert alert, String id, Instant now) {
        for (Person person : settings.people()) {
            boolean isKnown =
                    !id.endsWith(CLOSED) || told(person.name(), "webhook").containsKey(alert.id());
            if (person.webhook() != null
                    && person.hears(alert.urgency())
                    && isKnown
                    && told(person.name(), "webhook").putIfAbsent(id, now) == null) {
                posts.add(StoredNotice.fresh(
                        person.name(), "webhook", alert.kind().word(), AlertJson.line(alert), List.of(id), now));
            }
        }
    }

    /**
     * What is to be sent now; it counts as told from then on.
     *
     * @param seen ids of the alerts that were answered
     */
    List<StoredNotice> due(Instant now, Set<String> seen) {
        var due = new ArrayList<>(posts);
        posts.clear();
        for (Person person : settings.people()) {
            if (person.mail() != null) {
                mail(person, now, seen, due);
            }
        }
        return due;
    }

    private void mail(Person person, Instant now, Set<String> seen, List<StoredNotice> due) {
        Map<String, Instant> mine = told(person.name(), "mail");
        Person.Quiet quiet = person.quiet();
        boolean isQuiet = quiet != null && quiet.contains(now.atZone(zone).toLocalTime());
        List<Alert> ready = open.values().stream()
                .filter(alert -> person.hears(alert.urgency()) && !seen.contains(alert.id()))
                .filter(alert -> !isQuiet || (alert.urgency() == Urgency.NOW && person.nowBreaksQuiet()))
                .filter(alert -> isNews(alert, mine, now))
                .sorted(URGENT_FIRST)
                .toList();
        if (ready.isEmpty() || !isTime(ready, mine, now)) {
            return;
        }
        ready.forEach(alert -> mine.put(alert.id(), now));
        due.add(StoredNotice.fresh(
                person.name(),
                "mail",
                words.subject(ready),
                words.body(ready, now),
                ready.stream().map(Alert::id).toList(),
                now));
    }

    /** Not told yet, or urgent now and not seen for a while. */
    private static boolean isNews(Alert alert, Map<String, Instant> mine, Instant now) {
        Instant last = mine.get(alert.id());
        return last == null || (alert.urgency() == Urgency.NOW && !now.isBefore(last.plus(REPEAT)));
    }

    private boolean isTime(List<Alert> ready, Map<String, Instant> mine, Instant now) {
        boolean isNow = ready.get(0).urgency() == Urgency.NOW;
        Instant oldest = ready.stream()
                .map(alert -> since.getOrDefault(alert.id(), now))
                .min(Comparator.naturalOrder())
                .orElse(now);
        Instant last = new HashSet<>(mine.values())
                .stream().max(Comparator.naturalOrder()).orElse(Instant.EPOCH);
        return !now.isBefore(oldest.plus(isNow ? BUNDLE_NOW : BUNDLE))
                && !now.isBefore(last.plus(isNow ? GAP_NOW : GAP));
    }
}
