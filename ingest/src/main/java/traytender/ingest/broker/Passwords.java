package traytender.ingest.broker;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.security.MessageDigest;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Users of the built-in broker and their passwords: one {@code user: password} a line; lines that begin with # are comments. */
final class Passwords {
    private static final Logger log = LoggerFactory.getLogger(Passwords.class);
    private static final Set<PosixFilePermission> OTHERS =
            Set.of(PosixFilePermission.GROUP_READ, PosixFilePermission.OTHERS_READ);

    private final Map<String, byte[]> byUser;

    private Passwords(Map<String, byte[]> byUser) {
        this.byUser = byUser;
    }

    /**
     * Reads the file and adds the program's own user.
     *
     * @throws BrokerException when it cannot be read, or names nobody
     */
    static Passwords read(Path file, String ownUser, String ownPassword) {
        Map<String, byte[]> byUser = new LinkedHashMap<>();
        try {
            for (String line : Files.readAllLines(file)) {
                int colon = line.indexOf(':');
                if (colon > 0 && !line.startsWith("#")) {
                    byUser.put(
                            line.substring(0, colon).strip(),
                            bytes(line.substring(colon + 1).strip()));
                }
            }
            warnWhenOthersMayRead(file);
        } catch (IOException e) {
            throw missing(file, e);
        }
        if (byUser.isEmpty()) {
            throw missing(file, null);
        }
        byUser.put(ownUser, bytes(ownPassword));
        return new Passwords(byUser);
    }

    private static BrokerException missing(Path file, @org.jspecify.annotations.Nullable IOException cause) {
        return new BrokerException(
                "the built-in broker is open to the network, and " + file + " names no user for it."
                        + "\nMaybe write a line \"user: password\" for each sensor's user into it (mode 600), or leave listen out.",
                cause);
    }

    private static void warnWhenOthersMayRead(Path file) throws IOException {
        if (!Files.getFileStore(file).supportsFileAttributeView("posix")) {
            return;
        }
        if (Files.getPosixFilePermissions(file).stream().anyMatch(OTHERS::contains)) {
            log.warn("{} can be read by others on this machine; maybe chmod 600 it", file);
        }
    }

    private static byte[] bytes(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    /** Whether it is that user's password. */
    boolean isRight(String user, String password) {
        byte[] known = byUser.get(user);
        // Compared in constant time, so that answers do not tell how much of a guess was right.
        return known != null && MessageDigest.isEqual(known, bytes(password));
    }
}
