package traytender.dashboard.notice;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.notice.NoticeSettings;
import traytender.config.notice.Person;
import traytender.config.notice.Person.Quiet;
import traytender.config.site.Show;
import traytender.config.site.Zone;
import traytender.ingest.store.StoredNotice;

/** Who hears of what, and when. */
class NoticePlanTest {
    private static final Instant NOON = Instant.parse("2026-03-14T12:00:00Z");
    private static final Instant NIGHT = Instant.parse("2026-03-14T23:00:00Z");
    private static final Person MIRA = new Person(
            "Mira",
            "mira@alder.example",
            null,
            null,
            Urgency.TODAY,
            new Quiet(LocalTime.of(21, 0), LocalTime.of(6, 30)),
            true,
            null);
    private static final Person BOARD = new Person(
            "board", null, URI.create("http://board.example/"), "board.secret", Urgency.NOW, null, true, null);

    private NoticePlan plan = plan(List.of(MIRA, BOARD), List.of());

    private static NoticePlan plan(List<Person> people, List<StoredNotice> before) {
        return new NoticePlan(
                new NoticeSettings("http://bench.local:8420/", null, null, people),
                NoticeSite.shown(Show.USUAL),
                before);
    }

    private static Alert alert(String id, Urgency urgency) {
        return new Alert(
                id,
                AlertKind.DRY,
                "T" + id,
                null,
                Zone.CENTRE,
                urgency,
                NOON,
                null,
                null,
                0.4,
                0.45,
                "1",
                List.of(),
                null,
                "Centre is at 40 %.",
                "Water the centre now.",
                null);
    }

    private List<StoredNotice> mails(Instant now, String... seen) {
        return plan.due(now, Set.of(seen)).stream()
                .filter(notice -> notice.way().equals("mail"))
                .toList();
    }

    @Test
    void twelveAlertsAtOnce_areOneMail_theMostUrgentFirst() {
        for (int i = 0; i < 12; i++) {
            plan.open(alert(Integer.toString(i), i == 7 ? Urgency.NOW : Urgency.TODAY), NOON.plusSeconds(i));
        }

        assertThat(mails(NOON.plusSeconds(30))).isEmpty();
        assertThat(mails(NOON.plusSeconds(61))).singleElement().satisfies(mail -> {
            assertThat(mail.subject()).isEqualTo("Now: T7: Water the centre now. (and 11 more)");
            assertThat(mail.alerts()).hasSize(12);
            assertThat(mail.body())
                    .contains("NOW\n\nT7: Water", "TODAY", "Centre is at 40 %.", "http://bench.local:8420/");
        });
        assertThat(mails(NOON.plusSeconds(120))).isEmpty();
    }

    @Test
    void whatIsOnlyGoodToKnow_isNotMailedToOneWhoAskedForToday() {
        plan.open(alert("1", Urgency.NOTE), NOON);

        assertThat(mails(NOON.plus(Duration.ofHours(2)))).isEmpty();
    }

    @Test
    void urgentNow_isSaidAgainUntilSeen_orClosed() {
        Alert first = alert("1", Urgency.NOW);
        plan.open(first, NOON);
        plan.open(alert("2", Urgency.NOW), NOON);
        assertThat(mails(NOON.plusSeconds(60))).hasSize(1);

        assertThat(mails(NOON.plus(Duration.ofMinutes(30)))).isEmpty();
        assertThat(mails(NOON.plus(Duration.ofMinutes(31)), "2"))
                .singleElement()
                .satisfies(mail -> assertThat(mail.alerts()).containsExactly("1"));
        plan.close(first, NOON.plus(Duration.ofMinutes(40)));
        assertThat(mails(NOON.plus(Duration.ofHours(3)), "2")).isEmpty();
    }

    @Test
    void quietHours_holdBackAllButWhatIsUrgentNow_andEndWithOneDigest() {
        plan.open(alert("1", Urgency.TODAY), NIGHT);
        plan.open(alert("2", Urgency.TODAY), NIGHT.plusSeconds(3600));
        assertThat(mails(NIGHT.plus(Duration.ofHours(2)))).isEmpty();

        plan.open(alert("3", Urgency.NOW), NIGHT.plus(Duration.ofHours(3)));
        assertThat(mails(NIGHT.plus(Duration.ofHours(3).plusMinutes(2)), "x"))
                .singleElement()
                .satisfies(mail -> assertThat(mail.alerts()).containsExactly("3"));

        Instant morning = Instant.parse("2026-03-15T06:30:00Z");
        assertThat(mails(morning.minusSeconds(1), "3")).isEmpty();
        assertThat(mails(morning, "3"))
                .singleElement()
                .satisfies(mail -> assertThat(mail.alerts()).containsExactly("1", "2"));
    }

    @Test
    void alertThatClosesBeforeTheMailGoes_isNotMailed() {
        Alert brief = alert("1", Urgency.TODAY);
        plan.open(brief, NOON);
        plan.close(brief, NOON.plusSeconds(100));

        assertThat(mails(NOON.plus(Duration.ofHours(1)))).isEmpty();
    }

    @Test
    void webhook_getsEachRecordOnce_openedAndClosed() {
        Alert dry = alert("1", Urgency.NOW);
        plan.open(dry, NOON);
        plan.open(dry, NOON.plusSeconds(1));
        plan.open(alert("2", Urgency.TODAY), NOON);
        plan.close(dry.withClosed(NOON.plusSeconds(60)), NOON.plusSeconds(60));

        assertThat(plan.due(NOON.plusSeconds(60), Set.of("1")))
                .filteredOn(notice -> notice.way().equals("webhook"))
                .extracting(StoredNotice::body)
                .satisfiesExactly(
                        opened -> assertThat(opened).contains("\"id\":\"1\"", "\"closed\":null"),
                        closed -> assertThat(closed).contains("\"closed\":\"2026-03-14T12:01:00Z\""));
    }

    @Test
    void whatWasToldBeforeARestart_isNotToldAgain() {
        plan.open(alert("1", Urgency.TODAY), NOON);
        plan.open(alert("9", Urgency.NOW), NOON);
        List<StoredNotice> before = plan.due(NOON.plusSeconds(301), Set.of());

        plan = plan(List.of(MIRA, BOARD), before);
        plan.open(alert("1", Urgency.TODAY), NOON.plusSeconds(400));
        plan.open(alert("9", Urgency.NOW), NOON.plusSeconds(400));

        assertThat(plan.due(NOON.plusSeconds(900), Set.of())).isEmpty();
    }
}
