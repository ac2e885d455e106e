package traytender.ingest.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocketFactory;
import javax.net.ssl.TrustManager;
import javax.net.ssl.TrustManagerFactory;
import javax.net.ssl.X509TrustManager;
import org.jspecify.annotations.Nullable;

/** Whose certificates are believed: the system's authorities and the grower's own. */
final class Trust {
    private Trust() {}

    /**
     * Sockets that believe the system's authorities and the certificates of the file.
     *
     * @throws LinkException when the file cannot be used
     */
    static SSLSocketFactory with(Path file) {
        try {
            KeyStore store = KeyStore.getInstance(KeyStore.getDefaultType());
            store.load(null, null);
            int number = 0;
            for (TrustManager manager : managers(null)) {
                if (manager instanceof X509TrustManager known) {
                    for (X509Certificate certificate : known.getAcceptedIssuers()) {
                        store.setCertificateEntry("system-" + number++, certificate);
                    }
                }
            }
            try (InputStream in = Files.newInputStream(file)) {
                for (Certificate certificate :
                        CertificateFactory.getInstance("X.509").generateCertificates(in)) {
                    store.setCertificateEntry("own-" + number++, certificate);
                }
            }
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(null, managers(store), null);
            return context.getSocketFactory();
        } catch (IOException | GeneralSecurityException e) {
            throw new LinkException("the certificates in " + file + " cannot be used: " + e.getMessage(), e);
        }
    }

    private static TrustManager[] managers(@Nullable KeyStore store) throws GeneralSecurityException {
        var factory = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        factory.init(store);
        return factory.getTrustManagers();
    }
}
