package traytender.ingest.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import traytender.config.folder.SiteFolder;
import traytender.config.site.Broker;
import traytender.ingest.broker.BuiltInBroker;
import traytender.ingest.mqtt.LinkSettings;

/** How the program reaches the broker that the site names. */
final class Links {
    private Links() {}

    static LinkSettings settings(SiteFolder folder, @Nullable BuiltInBroker builtIn) {
        String prefix = folder.site().messages().prefix();
        if (folder.site().messages().broker() instanceof Broker.Outside outside) {
            return new LinkSettings(
                    outside.uri(),
                    outside.user(),
                    secret(folder.path(), outside.passwordFile()),
                    outside.trust() == null ? null : folder.path().resolve(outside.trust()),
                    prefix);
        }
        if (builtIn == null) {
            throw new IllegalStateException("the built-in broker is not there");
        }
        return new LinkSettings(builtIn.uri(), builtIn.user(), builtIn.password(), null, prefix);
    }

    private static @Nullable String secret(Path folder, @Nullable String file) {
        if (file == null) {
            return null;
        }
        try {
            return Files.readString(folder.resolve(file)).strip();
        } catch (IOException e) {
            throw new IntakeException(
                    "the broker's password cannot be read from " + folder.resolve(file) + ": " + e.getMessage(), e);
        }
    }
}
