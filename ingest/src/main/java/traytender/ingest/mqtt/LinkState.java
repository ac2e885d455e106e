package traytender.ingest.mqtt;

import org.jspecify.annotations.Nullable;

/**
 * How the connection to the broker stands.
 *
 * @param isSubscribed whether the broker has confirmed that messages will come
 * @param trouble why there is no connection, in one line; null while there is one, or none was tried yet
 */
public record LinkState(boolean isSubscribed, @Nullable String trouble) {}
