package traytender.dashboard.notice;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.time.Clock;
import java.time.Duration;
import java.util.HexFormat;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * Posts JSON, signed so that the other side can tell who sent it and that nothing was changed: {@code Traytender-Signature:
 * sha256=HEX}, the HMAC-SHA-256 (RFC 2104) by the shared secret of the time in {@code Traytender-Time}, a full stop and the body.
 * The time is signed too, so that an old post cannot be sent again unnoticed.
 */
final class Webhook {
    private static final Duration PATIENCE = Duration.ofSeconds(20);

    /** Made when the first is posted: reading this machine's certificates would slow every start. */
    private static final class Client {
        static final HttpClient HTTP =
                HttpClient.newBuilder().connectTimeout(PATIENCE).build();
    }

    private final Path site;
    private final Clock clock;

    /** @param site the site folder, in which the secrets' files stand */
    Webhook(Path site, Clock clock) {
        this.site = site;
        this.clock = clock;
    }

    void post(URI address, String secretFile, String json) throws UndeliveredException, InterruptedException {
        try {
            String secret = Files.readString(site.resolve(secretFile)).strip();
            String time = clock.instant().toString();
            HttpRequest request = HttpRequest.newBuilder(address)
                    .timeout(PATIENCE)
                    .header("Content-Type", "application/json")
                    .header("Traytender-Time", time)
                    .header("Traytender-Signature", "sha256=" + signature(secret, time + "." + json))
                    .POST(HttpRequest.BodyPublishers.ofString(json))
                    .build();
            int status = Client.HTTP
                    .send(request, HttpResponse.BodyHandlers.discarding())
                    .statusCode();
            if (status < 200 || status > 299) {
                throw new UndeliveredException(address.getHost() + " answers " + status, null);
            }
        } catch (IOException e) {
            throw new UndeliveredException(address.getHost() + " cannot be reached: " + e, e);
        }
    }

    static String signature(String secret, String text) {
        try {
            var mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(secret.getBytes(StandardCharsets.UTF_8), "HmacSHA256"));
            return HexFormat.of().formatHex(mac.doFinal(text.getBytes(StandardCharsets.UTF_8)));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java has HmacSHA256", e);
        }
    }
}
