package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import traytender.config.alert.Urgency;
import traytender.config.notice.Heartbeat;
import traytender.config.notice.MailServer;
import traytender.config.notice.NoticeSettings;
import traytender.config.notice.Person;

class NoticesReadingTest {
    @TempDir
    Path folder;

    @Test
    void file_saysWhoHearsOfWhatAndWhen() throws IOException {
        Files.writeString(folder.resolve("notices.yaml"), """
                page: http://192.168.1.7:8420/
                mail: {server: mail.alder.example, from: bench@alder.example, user: bench, password-file: mail.password}
                heartbeat: {url: "https://watch.example.org/alder", every: PT10M}
                people:
                  - {name: Mira, mail: mira@alder.example, urgency: note, quiet: "21:00-06:30", now-breaks-quiet: false, night-report: {at: "06:30", as: html}}
                  - {name: board, webhook: "http://board.local:9000/alerts", secret-file: board.secret, urgency: now}
                """);

        NoticeSettings settings = SiteReader.notices(folder);

        assertThat(settings.mail())
                .isEqualTo(new MailServer(
                        "mail.alder.example",
                        587,
                        MailServer.Security.STARTTLS,
                        "bench@alder.example",
                        "bench",
                        "mail.password"));
        assertThat(settings.heartbeat())
                .isEqualTo(new Heartbeat(URI.create("https://watch.example.org/alder"), Duration.ofMinutes(10)));
        Person mira = settings.find("Mira").orElseThrow();
        assertThat(mira.hears(Urgency.NOTE)).isTrue();
        assertThat(mira.quiet().contains(LocalTime.of(23, 0))).isTrue();
        assertThat(mira.quiet().contains(LocalTime.of(6, 29))).isTrue();
        assertThat(mira.quiet().contains(LocalTime.of(6, 30))).isFalse();
        assertThat(mira.nowBreaksQuiet()).isFalse();
        assertThat(mira.night()).isEqualTo(new Person.Night(LocalTime.of(6, 30), Person.Form.HTML));
        assertThat(settings.find("board").orElseThrow().night()).isNull();
        assertThat(settings.find("board").orElseThrow().hears(Urgency.TODAY)).isFalse();
    }

    @Test
    void withoutTheFile_nobodyHears() {
        assertThat(SiteReader.notices(folder)).isEqualTo(NoticeSettings.NONE);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "people: [{name: Mira, mail: mira@alder.example}] | no mail server",
                "people: [{name: Mira}] | neither mail nor webhook",
                "people: [{name: board, webhook: 'http://b/'}] | only one of webhook and secret-file",
                "people: [{name: board, webhook: 'ftp://b/', secret-file: s}] | webhook is",
                "people: [{name: Mira, mail: nowhere}] | mail is",
                "people: [{name: Mira, mail: a@b, urgency: soon}] | urgency is",
                "people: [{name: Mira, mail: a@b, quiet: late}] | quiet is",
                "people: [{name: Mira, mial: a@b}] | mial",
                "mail: {server: m, from: a@b, user: u} | only one of user and password-file",
                "mail: {server: m, from: a@b, user: u, password-file: p, security: none} | in the clear",
                "mail: {server: m, from: a@b, port: 0} | port is",
                "people: [{name: b, webhook: 'http://b/', secret-file: s, night-report: {at: '06:30'}}] | has no mail",
                "people: [{name: Mira, mail: a@b, night-report: {as: pdf}}] | night-report has no \"at\"",
                "people: [{name: Mira, mail: a@b, night-report: {at: '06:30', as: fax}}] | as is",
                "heartbeat: {every: PT5M} | url",
                "heartbeat: {url: 'ftp://w/'} | url is",
                "heartbeat: {url: 'http://w/', every: PT5S} | every is",
            })
    void mistake_isToldWithItsPlace(String text, String word) throws IOException {
        Files.writeString(folder.resolve("notices.yaml"), text + "\n");

        assertThatThrownBy(() -> SiteReader.notices(folder))
                .isInstanceOf(SiteFolderException.class)
                .hasMessageContaining("notices.yaml:1:")
                .hasMessageContaining(word);
    }
}
