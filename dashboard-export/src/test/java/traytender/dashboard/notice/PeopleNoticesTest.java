package traytender.dashboard.notice;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.notice.MailServer;
import traytender.config.notice.MailServer.Security;
import traytender.config.notice.NoticeSettings;
import traytender.config.notice.Person;
import traytender.config.site.Show;
import traytender.config.site.Zone;
import traytender.ingest.store.JournalStore;
import traytender.ingest.store.StoredNotice;
import traytender.rules.AlertChange;
import traytender.rules.AlertChange.What;
import traytender.rules.night.NightReport;

/** Notices on their way: a real mail server, a real web server, a real store. */
class PeopleNoticesTest {
    private static final Instant NOW = Instant.parse("2026-03-14T12:00:00Z");

    private static final Person.Night NIGHT = new Person.Night(LocalTime.of(5, 30), Person.Form.PDF);

    @TempDir
    Path folder;

    private JournalStore journal;
    private final GreenMail mail = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    private final List<String> posted = new CopyOnWriteArrayList<>();
    private volatile int answer = 204;
    private HttpServer web;
    private Instant now = NOW;

    @BeforeEach
    void start() throws IOException {
        journal = JournalStore.open(folder);
        mail.start();
        Files.writeString(folder.resolve("board.secret"), "a shared secret\n");
        web = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        web.createContext("/alerts", exchange -> {
            String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
            posted.add(exchange.getRequestHeaders().getFirst("Traytender-Time") + "|"
                    + exchange.getRequestHeaders().getFirst("Traytender-Signature") + "|" + body);
            exchange.sendResponseHeaders(answer, -1);
            exchange.close();
        });
        web.start();
    }

    @AfterEach
    void stop() {
        web.stop(0);
        mail.stop();
        journal.close();
    }

    private PeopleNotices notices(Security security) {
        var server = new MailServer("127.0.0.1", mail.getSmtp().getPort(), security, "bench@alder.example", null, null);
        URI board = URI.create("http://127.0.0.1:" + web.getAddress().getPort() + "/alerts");
        return new PeopleNotices(
                new NoticeSettings(
                        null,
                        server,
                        null,
                        List.of(
                                new Person("Mira", "mira@alder.example", null, null, Urgency.TODAY, null, true, NIGHT),
                                new Person("board", null, board, "board.secret", Urgency.NOW, null, true, null))),
                NoticeSite.shown(Show.USUAL),
                folder,
                journal.notices(),
                Set::of,
                PeopleNoticesTest::night,
                ((InstantSource) () -> now).withZone(ZoneOffset.UTC));
    }

    private static AlertChange opened(String id, @Nullable Instant closed) {
        return new AlertChange(
                closed == null ? What.OPENED : What.CLOSED,
                new Alert(
                        id,
                        AlertKind.DRY,
                        "T01",
                        null,
                        Zone.CENTRE,
                        Urgency.NOW,
                        NOW,
                        closed,
                        null,
                        0.4,
                        0.45,
                        "1",
                        List.of(),
                        null,
                        "Centre of T01 is at 40 %, dry line 45 %.",
                        "Water the centre now.",
                        null));
    }

    private static NightReport night(LocalDate date) {
        Instant sunset = date.atTime(19, 0).toInstant(ZoneOffset.UTC);
        return new NightReport(date, sunset, sunset.plus(Duration.ofHours(11)), true, true, List.of(), List.of());
    }

    private void later(Duration by) {
        now = now.plus(by);
    }

    @Test
    void alert_reachesThePersonByMail_andIsKept() throws Exception {
        PeopleNotices notices = notices(Security.NONE);
        notices.changed(opened("a1", null));
        later(Duration.ofSeconds(61));

        notices.look();

        var message = mail.getReceivedMessages()[0];
        assertThat(message.getSubject()).isEqualTo("Now: T01: Water the centre now.");
        assertThat(message.getAllRecipients()[0].toString()).isEqualTo("mira@alder.example");
        assertThat(GreenMailUtil.getBody(message)).contains("Centre of T01 is at 40 %");
        assertThat(notices.newest(9))
                .filteredOn(notice -> notice.way().equals("mail"))
                .singleElement()
                .satisfies(notice -> assertThat(notice.state()).isEqualTo(StoredNotice.SENT));
    }

    @Test
    void webhook_isSignedOverItsTimeAndBody() throws Exception {
        PeopleNotices notices = notices(Security.NONE);
        notices.changed(opened("a1", null));
        notices.changed(opened("a1", NOW.plusSeconds(5)));

        notices.look();

        assertThat(posted).hasSize(2);
        String[] parts = posted.get(0).split("\\|", 3);
        assertThat(parts[1]).isEqualTo("sha256=" + Webhook.signature("a shared secret", parts[0] + "." + parts[2]));
        assertThat(parts[2]).contains("\"id\":\"a1\"", "\"closed\":null");
        assertThat(posted.get(1)).contains("\"closed\":\"2026-03-14T12:00:05Z\"");
    }

    /** Test case 2 of RFC 4231. */
    @Test
    void signature_isHmacSha256() {
        assertThat(Webhook.signature("Jefe", "what do ya want for nothing?"))
                .isEqualTo("5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843");
    }

    @Test
    void undeliveredNotice_isTriedAgainEverMoreRarely_survivesARestart_andIsGivenUpAfterADay() throws Exception {
        answer = 503;
        notices(Security.NONE).changed(opened("a0", null));
        PeopleNotices notices = notices(Security.NONE);
        notices.changed(opened("a1", null));
        notices.look();
        notices.look();
        assertThat(posted).as("waits before the second try").hasSize(1);
        assertThat(hook(notices).trouble()).contains("answers 503");

        later(PeopleNotices.RETRY);
        notices.look();
        later(PeopleNotices.RETRY);
        notices.look();
        assertThat(posted).as("the second wait is longer").hasSize(2);

        PeopleNotices restarted = notices(Security.NONE);
        later(Duration.ofHours(1));
        answer = 200;
        restarted.look();
        assertThat(hook(restarted).state()).isEqualTo(StoredNotice.SENT);
        assertThat(hook(restarted).tries()).isEqualTo(3);

        answer = 500;
        restarted.changed(opened("a2", null));
        restarted.look();
        later(PeopleNotices.GIVE_UP);
        restarted.look();
        assertThat(hook(restarted).state()).isEqualTo(StoredNotice.GIVEN_UP);
    }

    private static StoredNotice hook(PeopleNotices notices) {
        return notices.newest(9).stream()
                .filter(notice -> notice.way().equals("webhook"))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void serverWithoutStarttls_getsNothingWhereItIsInsistedOn() throws Exception {
        PeopleNotices notices = notices(Security.STARTTLS);
        assertThat(notices.test("Mira")).isTrue();
        assertThat(notices.test("nobody")).isFalse();

        notices.look();

        assertThat(mail.getReceivedMessages()).isEmpty();
        assertThat(notices.newest(1).get(0).trouble()).containsIgnoringCase("STARTTLS");
    }

    @Test
    void night_comesInTheMorningWithItsReportAttached() throws Exception {
        PeopleNotices notices = notices(Security.NONE);
        later(Duration.ofHours(17).plusMinutes(30));

        notices.look();
        notices.look();

        var message = mail.getReceivedMessages()[0];
        assertThat(mail.getReceivedMessages()).hasSize(1);
        assertThat(message.getSubject()).isEqualTo("Night of Sat 14 Mar: no temperature was heard");
        assertThat(GreenMailUtil.getWholeMessage(message))
                .contains("From sunset at 19:00 to sunrise at 06:00.")
                .contains("Content-Type: application/pdf; name=night-2026-03-14.pdf");
        assertThat(notices.newest(1).get(0).way()).isEqualTo("night-pdf");
    }

    @Test
    void test_goesOutAtOnce() throws Exception {
        PeopleNotices notices = notices(Security.NONE);
        notices.test("Mira");
        notices.test("board");

        notices.look();

        assertThat(mail.getReceivedMessages()).hasSize(1);
        assertThat(posted).singleElement().asString().endsWith("{\"test\":true}");
    }
}
