package traytender.ingest.mqtt;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * How to reach a broker and how the program signs what it sends.
 *
 * @param uri {@code tcp://host:port} or {@code ssl://host:port}
 * @param user the user name; null for none
 * @param password its password; null for none
 * @param trust a file with PEM certificates to trust beside the system's; null for none
 * @param prefix first level of the program's own topics, from which the client id is made too
 */
public record LinkSettings(
        String uri,
        @Nullable String user,
        @Nullable String password,
        @Nullable Path trust,
        String prefix) {
    /** The name the broker knows the session by. */
    String clientId() {
        return prefix.replace('/', '-');
    }

    /** Where the program says whether it is watching. */
    String statusTopic() {
        return prefix + "/status";
    }

    /** Whether the program itself speaks there, so that it need not hear it. */
    boolean isOwn(String topic) {
        return topic.equals(statusTopic()) || topic.equals(prefix + "/call") || topic.startsWith(prefix + "/alerts/");
    }

    @Override
    public String toString() {
        return uri;
    }
}
