package traytender.dashboard.page;

import io.javalin.http.Context;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import org.jspecify.annotations.Nullable;

/**
 * Lets a scraper read {@code /metrics} without a login, by {@code Authorization: Bearer TOKEN} (RFC 6750). The token stands in the site
 * folder's file {@code metrics.token}; without that file nobody is let in so. It opens nothing else.
 */
final class MetricsToken {
    static final String FILE = "metrics.token";
    /** Shorter ones can be guessed; our choice. */
    private static final int SHORTEST = 16;

    private static final String SCHEME = "Bearer ";

    private final byte @Nullable [] token;

    private MetricsToken(byte @Nullable [] token) {
        this.token = token;
    }

    /** @throws PageException when the file is there and cannot be used */
    static MetricsToken in(Path folder) {
        Path file = folder.resolve(FILE);
        try {
            String text = Files.readString(file).strip();
            if (text.length() < SHORTEST) {
                throw new PageException(
                        file + " is shorter than " + SHORTEST
                                + " characters.\nMaybe fill it with: openssl rand -hex 16 > metrics.token",
                        null);
            }
            return new MetricsToken(text.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchFileException e) {
            return new MetricsToken(null);
        } catch (IOException e) {
            throw new PageException(file + " cannot be read: " + e, e);
        }
    }

    boolean opens(Context context) {
        String given = context.header("Authorization");
        return token != null
                && given != null
                && context.path().equals("/metrics")
                && given.startsWith(SCHEME)
                && MessageDigest.isEqual(
                        token, given.substring(SCHEME.length()).strip().getBytes(StandardCharsets.UTF_8));
    }
}
