package traytender.dashboard.notice;

import jakarta.activation.DataSource;
import jakarta.mail.util.ByteArrayDataSource;
import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import traytender.config.notice.NoticeSettings;
import traytender.config.notice.Person;
import traytender.config.notice.Person.Form;
import traytender.config.site.Quantity;
import traytender.config.site.Site;
import traytender.dashboard.report.NightWriter;
import traytender.ingest.store.StoredNotice;
import traytender.rules.night.NightReport;
import traytender.rules.night.NightReport.ProbeNight;

/**
 * The report of the night by mail, once each morning to whoever asked for it. What is kept of it is its date and its words; what
 * is attached is made when it is sent. <b>Not thread-safe.</b>
 */
final class NightMail {
    private static final String WAY = "night-";
    /** A program that was away at the time asked for still sends it within this; our choice. */
    private static final Duration LATEST = Duration.ofHours(6);

    private final NoticeSettings settings;
    private volatile Site site;
    private final Function<LocalDate, NightReport> nights;
    /** By person, the dates of the nights that were written down. */
    private final Map<String, Set<String>> told = new HashMap<>();

    /** What is attached to a mail. */
    record Attachment(String name, DataSource content) {}

    /**
     * @param nights a night's report by the date of its evening, as far as it has come
     * @param before what was sent or waits already, in any order
     */
    NightMail(NoticeSettings settings, Site site, Function<LocalDate, NightReport> nights, List<StoredNotice> before) {
        this.settings = settings;
        this.site = site;
        this.nights = nights;
        before.stream()
                .filter(NightMail::isOne)
                .forEach(notice -> told(notice.person()).addAll(notice.alerts()));
    }

    private Set<String> told(String person) {
        return told.computeIfAbsent(person, name -> new HashSet<>());
    }

    /** Whether a notice is a night's report. */
    /** Another site from now on. */
    void takeOver(Site other) {
        site = other;
    }

    static boolean isOne(StoredNotice notice) {
        return notice.way().startsWith(WAY);
    }

    /** The reports whose time has come and that were not due before. */
    List<StoredNotice> due(Instant now) {
        var due = new ArrayList<StoredNotice>();
        LocalDateTime local = now.atZone(site.timezone()).toLocalDateTime();
        for (Person person : settings.people()) {
            Person.Night night = person.night();
            if (night == null) {
                continue;
            }
            LocalDateTime at = local.toLocalDate().atTime(night.at());
            LocalDate evening = local.toLocalDate().minusDays(1);
            boolean isTime = !local.isBefore(at) && local.isBefore(at.plus(LATEST));
            if (isTime && told(person.name()).add(evening.toString())) {
                due.add(notice(person.name(), night.as(), nights.apply(evening), now));
            }
        }
        return due;
    }

    private StoredNotice notice(String person, Form as, NightReport report, Instant now) {
        String way = WAY + as.name().toLowerCase(Locale.ROOT);
        Optional<ProbeNight> coldest = coldest(report);
        String day = DateTimeFormatter.ofPattern("EEE d MMM", Locale.ENGLISH).format(report.date());
        String subject = "Night of " + day
                + coldest.map(probe -> ": lowest "
                                + NightWriter.value(site, probe.probe().measures(), probe.lowest()) + " in "
                                + place(probe))
                        .orElse(": no temperature was heard");
        String page = settings.page();
        String body = site.name() + "\n\n" + String.join("\n", NightWriter.sentences(site, report))
                + "\n\nThe whole report is attached.\n"
                + (page == null ? "" : page + (page.endsWith("/") ? "" : "/") + "nights/" + report.date() + "\n");
        return StoredNotice.fresh(
                person, way, subject, body, List.of(report.date().toString()), now);
    }

    /** The lowest air, else the lowest root zone. */
    private static Optional<ProbeNight> coldest(NightReport report) {
        for (Quantity quantity : List.of(Quantity.AIR_TEMPERATURE, Quantity.TEMPERATURE)) {
            Optional<ProbeNight> lowest = report.probes().stream()
                    .filter(night -> night.probe().measures() == quantity && Double.isFinite(night.lowest()))
                    .min(Comparator.comparingDouble(ProbeNight::lowest));
            if (lowest.isPresent()) {
                return lowest;
            }
        }
        return Optional.empty();
    }

    private static String place(ProbeNight night) {
        String tray = night.tray();
        String room = night.room();
        return tray != null ? tray : room != null ? room : night.probe().id();
    }

    /** What is attached to a report that is sent now. */
    Attachment attachment(StoredNotice notice) throws IOException {
        LocalDate date = LocalDate.parse(notice.alerts().get(0));
        NightReport report = nights.apply(date);
        return notice.way().endsWith("html")
                ? attachment("night-" + date + ".html", "text/html; charset=UTF-8", NightWriter.html(site, report))
                : attachment("night-" + date + ".pdf", "application/pdf", NightWriter.pdf(site, report));
    }

    private static Attachment attachment(String name, String type, byte[] bytes) {
        return new Attachment(name, new ByteArrayDataSource(bytes, type));
    }
}
