package traytender.dashboard.notice;

import jakarta.activation.DataHandler;
import jakarta.mail.Authenticator;
import jakarta.mail.Message;
import jakarta.mail.MessagingException;
import jakarta.mail.PasswordAuthentication;
import jakarta.mail.Session;
import jakarta.mail.Transport;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeBodyPart;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Date;
import java.util.Properties;
import javax.net.ssl.SSLSocketFactory;
import org.jspecify.annotations.Nullable;
import traytender.config.notice.MailServer;
import traytender.config.notice.MailServer.Security;

/** Sends mail by SMTP. A server's certificate and name are checked; where STARTTLS is asked for, nothing goes out without it. */
final class Mailer {
    private static final String TIMEOUT_MS = "20000";

    private final MailServer server;
    private final Path site;
    private final @Nullable SSLSocketFactory trusting;

    /** Trusts what this Java trusts. */
    Mailer(MailServer server, Path site) {
        this(server, site, null);
    }

    /**
     * Trusts what a socket factory trusts.
     *
     * @param site the site folder, in which the password's file stands
     * @param trusting null for what this Java trusts
     */
    Mailer(MailServer server, Path site, @Nullable SSLSocketFactory trusting) {
        this.server = server;
        this.site = site;
        this.trusting = trusting;
    }

    /** Sends one mail of plain text, with a file where there is one. */
    void send(String to, String subject, String text, NightMail.@Nullable Attachment file, Instant made)
            throws UndeliveredException {
        try {
            var message = new MimeMessage(session());
            message.setFrom(new InternetAddress(server.from()));
            message.setRecipient(Message.RecipientType.TO, new InternetAddress(to));
            message.setSubject(subject, "UTF-8");
            if (file == null) {
                message.setText(text, "UTF-8");
            } else {
                message.setContent(with(file, text));
            }
            message.setSentDate(Date.from(made));
            message.setHeader("Auto-Submitted", "auto-generated");
            Transport.send(message);
        } catch (MessagingException e) {
            throw new UndeliveredException(server.host() + ":" + server.port() + " does not take it: " + why(e), e);
        } catch (IOException e) {
            throw new UndeliveredException("the password of the mail server cannot be read: " + e.getMessage(), e);
        }
    }

    private static MimeMultipart with(NightMail.Attachment file, String text) throws MessagingException {
        var words = new MimeBodyPart();
        words.setText(text, "UTF-8");
        var attached = new MimeBodyPart();
        attached.setDataHandler(new DataHandler(file.content()));
        attached.setFileName(file.name());
        return new MimeMultipart(words, attached);
    }

    private static String why(MessagingException e) {
        Exception next = e.getNextException();
        return next == null ? String.valueOf(e.getMessage()) : e.getMessage() + " (" + next.getMessage() + ")";
    }

    private Session session() throws IOException {
        var properties = new Properties();
        properties.put("mail.transport.protocol", "smtp");
        properties.put("mail.smtp.host", server.host());
        properties.put("mail.smtp.port", Integer.toString(server.port()));
        properties.put("mail.smtp.connectiontimeout", TIMEOUT_MS);
        properties.put("mail.smtp.timeout", TIMEOUT_MS);
        properties.put("mail.smtp.writetimeout", TIMEOUT_MS);
        properties.put("mail.smtp.ssl.enable", Boolean.toString(server.security() == Security.TLS));
        properties.put("mail.smtp.ssl.checkserveridentity", "true");
        if (trusting != null) {
            properties.put("mail.smtp.ssl.socketFactory", trusting);
        }
        properties.put("mail.smtp.starttls.enable", Boolean.toString(server.security() == Security.STARTTLS));
        properties.put("mail.smtp.starttls.required", Boolean.toString(server.security() == Security.STARTTLS));
        String user = server.user();
        String file = server.passwordFile();
        if (user == null || file == null) {
            return Session.getInstance(properties);
        }
        properties.put("mail.smtp.auth", "true");
        return Session.getInstance(
                properties, new Login(user, Files.readString(site.resolve(file)).strip()));
    }

    private static final class Login extends Authenticator {
        private final PasswordAuthentication login;

        Login(String user, String password) {
            this.login = new PasswordAuthentication(user, password);
        }

        @Override
        protected @Nullable PasswordAuthentication getPasswordAuthentication() {
            return login;
        }
    }
}
