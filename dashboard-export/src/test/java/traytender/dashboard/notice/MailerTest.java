package traytender.dashboard.notice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import javax.net.ssl.SSLContext;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.notice.MailServer;
import traytender.config.notice.MailServer.Security;
import traytender.testing.OwnCertificate;

/** Mail by STARTTLS: a real handshake in front of a real mail server. */
class MailerTest {
    private static final Instant NOW = Instant.parse("2026-03-14T12:00:00Z");

    @TempDir
    Path folder;

    private final GreenMail mail = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));

    @BeforeEach
    void start() throws Exception {
        mail.start();
        mail.setUser("bench", "wet thumbs");
        Files.writeString(folder.resolve("mail.password"), "wet thumbs\n");
    }

    @AfterEach
    void stop() {
        mail.stop();
    }

    @Test
    void starttls_carriesLoginAndMailBehindTheHandshake() throws Exception {
        SSLContext tls =
                OwnCertificate.make(folder.resolve("tls"), "ip:127.0.0.1").context();
        try (var front = new StarttlsFront(tls, mail.getSmtp().getPort())) {
            mailer(front, tls).send("mira@alder.example", "Now", "Water the centre.", null, NOW);

            assertThat(mail.getReceivedMessages()).hasSize(1);
            assertThat(mail.getReceivedMessages()[0].getSubject()).isEqualTo("Now");
            assertThat(front.inTheClear).hasSize(2);
            assertThat(front.inTheClear.get(0)).startsWith("EHLO");
            assertThat(front.inTheClear.get(1)).isEqualTo("STARTTLS");
        }
    }

    @Test
    void certificateOfAnotherName_isRefused_andNothingIsSent() throws Exception {
        SSLContext tls = OwnCertificate.make(folder.resolve("tls"), "dns:mail.elsewhere.example")
                .context();
        try (var front = new StarttlsFront(tls, mail.getSmtp().getPort())) {
            assertThatThrownBy(() -> mailer(front, tls).send("mira@alder.example", "Now", "Water.", null, NOW))
                    .isInstanceOf(UndeliveredException.class);

            assertThat(mail.getReceivedMessages()).isEmpty();
        }
    }

    @Test
    void certificateThatNobodyVouchesFor_isRefused() throws Exception {
        SSLContext tls =
                OwnCertificate.make(folder.resolve("tls"), "ip:127.0.0.1").context();
        try (var front = new StarttlsFront(tls, mail.getSmtp().getPort())) {
            assertThatThrownBy(() ->
                            new Mailer(server(front), folder).send("mira@alder.example", "Now", "Water.", null, NOW))
                    .isInstanceOf(UndeliveredException.class)
                    .hasMessageContaining("certification path");

            assertThat(mail.getReceivedMessages()).isEmpty();
        }
    }

    private Mailer mailer(StarttlsFront front, SSLContext trusting) {
        return new Mailer(server(front), folder, trusting.getSocketFactory());
    }

    private static MailServer server(StarttlsFront front) {
        return new MailServer(
                "127.0.0.1", front.port(), Security.STARTTLS, "bench@alder.example", "bench", "mail.password");
    }
}
