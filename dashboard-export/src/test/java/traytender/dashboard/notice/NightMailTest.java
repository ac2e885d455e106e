package traytender.dashboard.notice;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Urgency;
import traytender.config.notice.NoticeSettings;
import traytender.config.notice.Person;
import traytender.config.notice.Person.Form;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Show;
import traytender.ingest.store.StoredNotice;
import traytender.rules.night.NightReport;
import traytender.rules.trace.Beyond;

/** The report of the night, mailed each morning to whoever asked for it. */
class NightMailTest {
    /** Half past six of summer time in Dublin. */
    private static final Instant HALF_PAST_SIX = Instant.parse("2026-05-02T05:30:00Z");

    private static final LocalDate EVENING = LocalDate.of(2026, 5, 1);

    private static NightMail mail(Form form, Show show, List<StoredNotice> before) {
        var mira = new Person(
                "Mira",
                "mira@alder.example",
                null,
                null,
                Urgency.NOW,
                null,
                true,
                new Person.Night(LocalTime.of(6, 30), form));
        var ben = new Person("Ben", "ben@alder.example", null, null, Urgency.NOW, null, true, null);
        return new NightMail(
                new NoticeSettings("http://bench.local:8420", null, null, List.of(mira, ben)),
                NoticeSite.shown(show),
                NightMailTest::night,
                before);
    }

    private static NightReport night(LocalDate date) {
        assertThat(date).isEqualTo(EVENING);
        var probe = new Probe(
                "frame-air",
                Quantity.AIR_TEMPERATURE,
                Dated.always(new Place.InRoom("cold-frame")),
                new Binding.Text("alder/frame", Map.of()),
                Dated.always(new Calibration.None()),
                null);
        var coldest = new NightReport.ProbeNight(
                probe,
                null,
                "cold-frame",
                480,
                4.2,
                -1.3,
                Instant.parse("2026-05-02T03:55:00Z"),
                11.8,
                Instant.parse("2026-05-01T20:05:00Z"),
                new Beyond(2, 3.5, 6.1),
                null,
                List.of(),
                14.1,
                null);
        return new NightReport(
                date,
                Instant.parse("2026-05-01T20:00:00Z"),
                Instant.parse("2026-05-02T04:45:00Z"),
                true,
                true,
                List.of(coldest),
                List.of());
    }

    @Test
    void report_isDueOnceEachMorning_forWhoAskedForIt() {
        NightMail mail = mail(Form.PDF, Show.USUAL, List.of());

        assertThat(mail.due(HALF_PAST_SIX.minusSeconds(1))).isEmpty();
        List<StoredNotice> due = mail.due(HALF_PAST_SIX);

        assertThat(due).singleElement().satisfies(notice -> {
            assertThat(notice.person()).isEqualTo("Mira");
            assertThat(notice.subject()).isEqualTo("Night of Fri 1 May: lowest -1.3 \u00b0C in cold-frame");
            assertThat(notice.body())
                    .contains("From sunset at 21:00 to sunrise at 05:45.")
                    .contains(
                            "Air, lowest: -1.3 \u00b0C at 04:55, cold-frame (frame-air); 3 h 30 min below 2.0 \u00b0C.")
                    .contains("http://bench.local:8420/nights/2026-05-01");
        });
        assertThat(mail.due(HALF_PAST_SIX.plusSeconds(60))).as("once").isEmpty();
        assertThat(mail(Form.PDF, Show.USUAL, due).due(HALF_PAST_SIX.plusSeconds(60)))
                .as("nor again after a restart")
                .isEmpty();
    }

    @Test
    void programThatWasAway_sendsItWhenItIsBack_butNotInTheAfternoon() {
        assertThat(mail(Form.PDF, Show.USUAL, List.of()).due(HALF_PAST_SIX.plus(Duration.ofHours(5))))
                .hasSize(1);
        assertThat(mail(Form.PDF, Show.USUAL, List.of()).due(HALF_PAST_SIX.plus(Duration.ofHours(6))))
                .isEmpty();
    }

    @Test
    void clockOfTwelveHoursAndFahrenheit_areKeptToInTheMail() {
        StoredNotice notice = mail(Form.PDF, new Show(true, true), List.of())
                .due(HALF_PAST_SIX)
                .get(0);

        assertThat(notice.subject()).endsWith("lowest 29.7 \u00b0F in cold-frame");
        assertThat(notice.body())
                .contains("From sunset at 9:00 pm to sunrise at 5:45 am.")
                .contains("29.7 \u00b0F at 4:55 am");
    }

    @Test
    void attachment_isTheWholeReport() throws Exception {
        NightMail pdf = mail(Form.PDF, Show.USUAL, List.of());
        NightMail.Attachment attached = pdf.attachment(pdf.due(HALF_PAST_SIX).get(0));
        NightMail html = mail(Form.HTML, Show.USUAL, List.of());

        assertThat(attached.name()).isEqualTo("night-2026-05-01.pdf");
        try (PDDocument document =
                Loader.loadPDF(attached.content().getInputStream().readAllBytes())) {
            assertThat(new PDFTextStripper().getText(document)).contains("night of Friday 1 May 2026", "frame-air");
        }
        NightMail.Attachment page = html.attachment(html.due(HALF_PAST_SIX).get(0));
        assertThat(page.name()).isEqualTo("night-2026-05-01.html");
        assertThat(new String(page.content().getInputStream().readAllBytes(), StandardCharsets.UTF_8))
                .contains("<h1>Alder Lane Nursery, night of Friday 1 May 2026");
    }
}
