package traytender.config.site;

import org.jspecify.annotations.Nullable;

/** Where messages come from. */
public sealed interface Broker {
    /**
     * The program's own broker.
     *
     * @param listen the address it listens at; loopback unless the grower says otherwise
     * @param port its port, 1..65535, or 0 for any free one
     * @param key file name of the PKCS12 key that it shows to sensors, who must then come by TLS, relative to the site folder; null
     *     for none
     * @param keyPasswordFile file name of that key's password; not null when there is a key
     */
    record BuiltIn(
            String listen,
            int port,
            @Nullable String key,
            @Nullable String keyPasswordFile) implements Broker {
        /** The port MQTT has without TLS, as registered with IANA. */
        public static final int PORT = 1883;

        /** One without TLS. */
        public BuiltIn(String listen, int port) {
            this(listen, port, null, null);
        }
    }

    /**
     * Somebody else's broker.
     *
     * @param uri {@code tcp://host:port} or {@code ssl://host:port}
     * @param user the user name; null for none
     * @param passwordFile file name relative to the site folder; null for none
     * @param trust file name of a PEM certificate to trust beside the system's, relative to the site folder; null for none
     */
    record Outside(
            String uri,
            @Nullable String user,
            @Nullable String passwordFile,
            @Nullable String trust) implements Broker {}
}
