package traytender.config.notice;

import org.jspecify.annotations.Nullable;

/**
 * A server that takes mail by SMTP.
 *
 * @param from the sender's address
 * @param user null when it asks for none
 * @param passwordFile relative to the site folder; null without a user
 */
public record MailServer(
        String host,
        int port,
        Security security,
        String from,
        @Nullable String user,
        @Nullable String passwordFile) {
    /** How the way to it is kept secret. */
    public enum Security {
        /** From the first byte on. */
        TLS,
        /** Asked for in the clear and insisted on: nothing is sent to a server that refuses. */
        STARTTLS,
        /** Not at all; only for a server on the same machine or network. */
        NONE
    }
}
