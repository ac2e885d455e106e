package traytender.ingest.store;

import org.jspecify.annotations.Nullable;

/**
 * How the sending of readings to the long-term database stands.
 *
 * @param pending readings that wait to be sent, those from before the database was named included
 * @param sent readings the server took since the program started
 * @param setAside readings the server refused for good; they stay in the site's own store
 * @param trouble why nothing can be sent at the moment, in one line; null while all is well
 * @param lastRefusal what the server said about the last reading it refused for good; null when there was none since the start
 */
public record OutboxState(
        long pending,
        long sent,
        long setAside,
        @Nullable String trouble,
        @Nullable String lastRefusal) {}
