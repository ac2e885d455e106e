package traytender.config.notice;

import java.net.URI;
import java.time.Duration;

/**
 * Where the program says again and again that it is well, so that somebody outside notices when it falls silent.
 *
 * @param url asked for by GET
 * @param every time between two
 */
public record Heartbeat(URI url, Duration every) {}
