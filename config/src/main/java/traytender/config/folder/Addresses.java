package traytender.config.folder;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.Tag;

/** Addresses of servers, MQTT topics, JSON pointers and SenML names in a site file. */
final class Addresses {
    /** MQTT allows 65,535 bytes (version 3.1.1, section 1.5.3); nobody types that. */
    private static final int LONGEST_TOPIC = 400;

    private static final Pattern POINTER = Pattern.compile("(/([^~/]|~[01])*)*");
    private static final Pattern SENML_NAME = Pattern.compile("[A-Za-z0-9][A-Za-z0-9:./_-]*");

    private Addresses() {}

    /** {@code http://} or {@code https://} with a host. */
    static @Nullable String web(Field field) {
        return uri(field, List.of("http", "https"), "http://127.0.0.1:8086") == null ? null : field.written();
    }

    /** A server's address without user, path or query; null, and an error noted, when it is none. */
    static @Nullable URI uri(Field field, List<String> schemes, String example) {
        String text = field.written();
        URI uri = text == null ? null : parse(text);
        boolean right = uri != null
                && uri.getScheme() != null
                && schemes.contains(uri.getScheme().toLowerCase(Locale.ROOT))
                && uri.getHost() != null
                && uri.getPort() != 0
                && uri.getPort() <= 65_535
                && uri.getUserInfo() == null
                && uri.getQuery() == null
                && uri.getFragment() == null;
        return right ? uri : field.refuse(field.what() + " is " + field.shown(), example + " is right");
    }

    private static @Nullable URI parse(String text) {
        try {
            return new URI(text);
        } catch (URISyntaxException wrong) {
            return null;
        }
    }

    /** One exact MQTT topic. */
    static @Nullable String topic(Field field) {
        String topic = field.written();
        if (topic == null || topic.isEmpty() || field.node().getTag().equals(Tag.BOOL)) {
            return field.refuse(
                    field.what() + " is " + field.shown(), "an MQTT topic such as alder/T01/centre is right");
        }
        if (topic.chars().anyMatch(character -> character == '+' || character == '#')) {
            return field.refuse(
                    field.what() + " " + field.shown() + " has a wildcard", "the exact topic of its messages is right");
        }
        if (topic.chars().anyMatch(Character::isISOControl) || topic.length() > LONGEST_TOPIC) {
            return field.refuse(
                    field.what() + " " + field.shown() + " holds a control character or is longer than "
                            + LONGEST_TOPIC,
                    "plain text is right");
        }
        return topic;
    }

    /** An RFC 6901 pointer; empty for the whole document. */
    static @Nullable String pointer(Field field) {
        String text = field.written();
        return text != null && POINTER.matcher(text).matches()
                ? text
                : field.refuse(
                        field.what() + " is " + field.shown(),
                        "a JSON pointer (RFC 6901) such as /soil or /readings/0/temp is right");
    }

    /** A resolved name, RFC 8428 section 4.5.1. */
    static @Nullable String senMlName(Field field) {
        return field.text(
                SENML_NAME,
                "the resolved SenML name (letters, digits and - : . / _, beginning with a letter or digit)");
    }
}
