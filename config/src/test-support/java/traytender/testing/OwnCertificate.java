package traytender.testing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.Base64;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;

/**
 * A certificate that a server of a test signs itself, made by the JDK's keytool.
 *
 * @param certificate PEM file
 * @param key PEM file, not encrypted
 * @param context shows the certificate as a server, and as a client trusts it alone
 */
public record OwnCertificate(Path certificate, Path key, SSLContext context) {
    private static final String PASSWORD = "changeit";

    /**
     * Makes one.
     *
     * @param name whom it is for, as {@code ip:127.0.0.1} or {@code dns:bench.example}
     */
    public static OwnCertificate make(Path folder, String name) {
        try {
            var store = Files.createDirectories(folder).resolve("server.p12");
            keytool(store, name);
            var keys = KeyStore.getInstance("PKCS12");
            try (var in = Files.newInputStream(store)) {
                keys.load(in, PASSWORD.toCharArray());
            }
            return new OwnCertificate(
                    pem(
                            folder.resolve("server.crt"),
                            "CERTIFICATE",
                            keys.getCertificate("server").getEncoded()),
                    pem(
                            folder.resolve("server.key"),
                            "PRIVATE KEY",
                            keys.getKey("server", PASSWORD.toCharArray()).getEncoded()),
                    context(keys));
        } catch (IOException | GeneralSecurityException e) {
            throw new IllegalStateException(e);
        }
    }

    private static SSLContext context(KeyStore keys) throws GeneralSecurityException, IOException {
        var own = KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
        own.init(keys, PASSWORD.toCharArray());
        var known = KeyStore.getInstance("PKCS12");
        known.load(null, null);
        known.setCertificateEntry("server", keys.getCertificate("server"));
        var trusted = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        trusted.init(known);
        var context = SSLContext.getInstance("TLS");
        context.init(own.getKeyManagers(), trusted.getTrustManagers(), null);
        return context;
    }

    private static void keytool(Path store, String name) throws IOException {
        var process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "keytool")
                                .toString(),
                        "-genkeypair",
                        "-alias",
                        "server",
                        "-keyalg",
                        "EC",
                        "-dname",
                        "CN=bench",
                        "-ext",
                        "san=" + name,
                        "-validity",
                        "30",
                        "-storetype",
                        "PKCS12",
                        "-keystore",
                        store.toString(),
                        "-storepass",
                        PASSWORD)
                .redirectErrorStream(true)
                .start();
        var said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        try {
            if (!process.waitFor(60, TimeUnit.SECONDS) || process.exitValue() != 0) {
                throw new IllegalStateException(said);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private static Path pem(Path file, String kind, byte[] bytes) throws IOException {
        var body = Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(bytes);
        return Files.writeString(file, "-----BEGIN " + kind + "-----\n" + body + "\n-----END " + kind + "-----\n");
    }
}
