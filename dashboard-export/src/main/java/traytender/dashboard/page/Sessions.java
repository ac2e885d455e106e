package traytender.dashboard.page;

import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Who has given the password, by a random token of 256 bits; forgotten when the program ends. <b>Safe from any thread.</b> */
final class Sessions {
    /** Our choice: a phone on the bench asks once a month. */
    static final Duration LASTING = Duration.ofDays(30);

    private static final int MOST = 1000;

    private final Clock clock;
    private final SecureRandom random = new SecureRandom();
    private final Map<String, Instant> endByToken = new LinkedHashMap<>() {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Instant> eldest) {
            return size() > MOST;
        }
    };

    Sessions(Clock clock) {
        this.clock = clock;
    }

    /** A new session's token. */
    synchronized String open() {
        var bytes = new byte[32];
        random.nextBytes(bytes);
        String token = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
        endByToken.put(token, clock.instant().plus(LASTING));
        return token;
    }

    /** Whether the token is of a session that has not ended. */
    synchronized boolean knows(@Nullable String token) {
        Instant end = token == null ? null : endByToken.get(token);
        return end != null && clock.instant().isBefore(end);
    }

    synchronized void end(@Nullable String token) {
        if (token != null) {
            endByToken.remove(token);
        }
    }
}
