package traytender.ingest.intake;

import java.time.Duration;
import java.time.Instant;

/**
 * The machine's clock was set back while the program ran; readings without a time of their own that came before stand ahead of what
 * is now.
 *
 * @param at the new time, when it was noticed
 * @param by how far
 */
public record SetBack(Instant at, Duration by) {}
