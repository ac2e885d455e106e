package traytender.ingest.store;

import java.time.Instant;
import java.util.List;

/**
 * A notice to a person, sent or waiting.
 *
 * @param number its own for good, from 1; 0 before it is kept
 * @param way {@code mail} or {@code webhook}
 * @param alerts ids of the alerts it tells of; empty for a test
 * @param made when it was written
 * @param state {@code waiting}, {@code sent} or {@code given-up}
 * @param tries how often sending was tried
 * @param next tried again from then on; of a sent one, when it was sent
 * @param trouble why the last try failed; empty when none did
 */
public record StoredNotice(
        long number,
        String person,
        String way,
        String subject,
        String body,
        List<String> alerts,
        Instant made,
        String state,
        int tries,
        Instant next,
        String trouble) {
    public static final String WAITING = "waiting";
    public static final String SENT = "sent";
    public static final String GIVEN_UP = "given-up";

    public StoredNotice {
        alerts = List.copyOf(alerts);
    }

    /** A new one, to be sent at once. */
    public static StoredNotice fresh(
            String person, String way, String subject, String body, List<String> alerts, Instant now) {
        return new StoredNotice(0, person, way, subject, body, alerts, now, WAITING, 0, now, "");
    }

    /** As it stands after a try. */
    public StoredNotice after(String stateNow, Instant nextNow, String troubleNow) {
        return new StoredNotice(
                number, person, way, subject, body, alerts, made, stateNow, tries + 1, nextNow, troubleNow);
    }
}
