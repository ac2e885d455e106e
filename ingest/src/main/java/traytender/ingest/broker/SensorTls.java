package traytender.ingest.broker;

import java.io.IOException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Broker;

/** The key by which sensors know the built-in broker and talk to it unheard. */
final class SensorTls {
    private SensorTls() {}

    /**
     * What the sensors' door needs to know; empty without a key.
     *
     * @param folder the site folder
     * @throws BrokerException when the key cannot be used
     */
    static String parameters(Broker.BuiltIn settings, @Nullable Path folder) {
        if (settings.key() == null || settings.keyPasswordFile() == null || folder == null) {
            return "";
        }
        Path key = folder.resolve(settings.key());
        try {
            String password =
                    Files.readString(folder.resolve(settings.keyPasswordFile())).strip();
            var keys = KeyStore.getInstance("PKCS12");
            try (var in = Files.newInputStream(key)) {
                keys.load(in, password.toCharArray());
            }
            return ";sslEnabled=true;keyStoreType=PKCS12;keyStorePath=" + encoded(key.toString()) + ";keyStorePassword="
                    + encoded(password);
        } catch (IOException | GeneralSecurityException e) {
            throw new BrokerException(
                    "the key that sensors are to know the built-in broker by cannot be used: " + key + ": "
                            + e.getMessage()
                            + "\nMaybe it is no PKCS12 file, or " + settings.keyPasswordFile()
                            + " does not hold its password.",
                    e);
        }
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
    }
}
