package traytender.config.folder;

import java.net.URI;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Broker;
import traytender.config.site.Messages;

/** Reads where messages come from. */
final class MessagesReading {
    static final List<String> KEYS =
            List.of("broker", "listen", "port", "key", "user", "password-file", "trust", "prefix");

    private static final int TLS_PORT = 8883;
    private static final String PREFIX = "traytender";
    private static final String LOOPBACK = "127.0.0.1";

    /** What holds when the file does not say: the program's own broker, for this machine alone. */
    static final Messages BUILT_IN = new Messages(new Broker.BuiltIn(LOOPBACK, Broker.BuiltIn.PORT), PREFIX);

    private static final Pattern PREFIX_FORM = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._/-]{0,39}(?<!/)");
    private static final Pattern HOST = Pattern.compile("[A-Za-z0-9:.%_-]{1,255}");

    private MessagesReading() {}

    static @Nullable Messages messages(Field field) {
        Keys keys = field.keys(KEYS);
        if (keys == null) {
            return null;
        }
        String prefix = keys.or(
                "prefix",
                PREFIX,
                value -> value.text(PREFIX_FORM, "up to 40 letters, digits, . _ - /, such as traytender,"));
        Field broker = keys.field("broker");
        Broker read = broker == null || "built-in".equals(broker.written()) ? builtIn(keys) : outside(keys, broker);
        return read == null ? null : new Messages(read, prefix);
    }

    private static Broker builtIn(Keys keys) {
        refuse(
                keys,
                List.of("user", "trust"),
                "the built-in broker has no ",
                "its users stand in the file passwords; leave it out");
        String listen = keys.or("listen", LOOPBACK, value -> value.text(HOST, "an address of this machine"));
        String key = keys.may("key", Field::text);
        String keyPassword = keys.may("password-file", Field::text);
        if (keys.has("key") != keys.has("password-file")) {
            keys.map().wrong("messages has only one of key and password-file", "give both, or neither");
        }
        int port = keys.or("port", keys.has("key") ? TLS_PORT : Broker.BuiltIn.PORT, value -> value.whole(0, 65_535));
        return new Broker.BuiltIn(listen, port, key, keyPassword);
    }

    private static @Nullable Broker outside(Keys keys, Field field) {
        refuse(keys, List.of("listen", "port", "key"), "an outside broker has no ", "write host and port into broker");
        URI uri = Addresses.uri(field, List.of("tcp", "ssl"), "built-in, tcp://host:1883 or ssl://host:8883");
        String user = keys.may("user", Field::text);
        String password = keys.may("password-file", Field::text);
        String trust = keys.may("trust", Field::text);
        if (keys.has("password-file") && !keys.has("user")) {
            keys.map().wrong("messages has a password-file but no user", "give the user too");
        }
        if (uri == null) {
            return null;
        }
        if (!uri.getPath().isEmpty()) {
            return field.refuse(field.what() + " is " + field.shown(), "an address without a path is right");
        }
        String scheme = uri.getScheme().toLowerCase(Locale.ROOT);
        int port = uri.getPort() > 0 ? uri.getPort() : scheme.equals("ssl") ? TLS_PORT : Broker.BuiltIn.PORT;
        return new Broker.Outside(scheme + "://" + uri.getHost() + ":" + port, user, password, trust);
    }

    private static void refuse(Keys keys, List<String> names, String wrong, String right) {
        for (String name : names) {
            Field field = keys.field(name);
            if (field != null) {
                field.wrong(wrong + name, right);
            }
        }
    }
}
