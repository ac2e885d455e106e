package traytender.dashboard.page;

import at.favre.lib.crypto.bcrypt.BCrypt;
import at.favre.lib.crypto.bcrypt.LongPasswordStrategies;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;

/**
 * The page's password, kept as a bcrypt hash. The grower writes it into the file in clear; the first start puts the hash in
 * its place, so that no clear password stays on disk. <b>Safe from any thread; checks one password at a time</b>, so that
 * many guesses at once do not take the machine's cores.
 */
final class PagePassword {
    /** About a quarter of a second a guess on a small machine; our choice. */
    private static final int COST = 12;

    private static final int SHORTEST = 8;
    private static final BCrypt.Version VERSION = BCrypt.Version.VERSION_2A;

    private final byte[] hash;

    private PagePassword(byte[] hash) {
        this.hash = hash;
    }

    /**
     * The password of that file.
     *
     * @throws PageException when there is no such file, it cannot be read or written, or the password is too short
     */
    static PagePassword of(Path file) {
        try {
            String text = Files.readString(file).strip();
            if (text.startsWith("$2a$")) {
                return new PagePassword(text.getBytes(StandardCharsets.US_ASCII));
            }
            if (text.length() < SHORTEST) {
                throw new PageException(
                        "the password in " + file + " has fewer than " + SHORTEST + " characters", null);
            }
            byte[] hash = hasher().hash(COST, text.getBytes(StandardCharsets.UTF_8));
            write(file, hash);
            return new PagePassword(hash);
        } catch (IOException e) {
            throw new PageException(
                    "the page would be open to the network, and its password file " + file
                            + " cannot be used (" + e
                            + ")\nMaybe write a password into that file (mode 600), or leave the page on"
                            + " 127.0.0.1.",
                    e);
        }
    }

    private static void write(Path file, byte[] hash) throws IOException {
        Path beside = file.resolveSibling(file.getFileName() + ".new");
        Files.deleteIfExists(beside);
        if (file.getFileSystem().supportedFileAttributeViews().contains("posix")) {
            Files.createFile(
                    beside, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
        }
        Files.write(beside, hash);
        Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }

    /** Whether this is the password. */
    synchronized boolean matches(String password) {
        byte[] bytes = password.getBytes(StandardCharsets.UTF_8);
        return BCrypt.verifyer(VERSION, LongPasswordStrategies.hashSha512(VERSION))
                .verify(bytes, hash)
                .verified;
    }

    private static BCrypt.Hasher hasher() {
        return BCrypt.with(VERSION, new SecureRandom(), LongPasswordStrategies.hashSha512(VERSION));
    }
}
