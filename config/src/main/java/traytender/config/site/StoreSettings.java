package traytender.config.site;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * How long readings stay, and where else they go.
 *
 * @param keep how long readings stay in the site's own store; null for good
 * @param influx the long-term database that gets every reading too; null for none
 */
public record StoreSettings(
        @Nullable Duration keep, @Nullable Influx influx) {
    /**
     * An InfluxDB server.
     *
     * @param passwordFile file name relative to the site folder; null for no password
     * @param tokenFile file name relative to the site folder of a token used in place of a password; null for none
     */
    public record Influx(
            String url,
            String database,
            @Nullable String user,
            @Nullable String passwordFile,
            @Nullable String tokenFile) {}
}
