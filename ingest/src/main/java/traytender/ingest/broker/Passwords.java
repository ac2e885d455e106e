package traytender.ingest.broker;

import at.favre.lib.crypto.bcrypt.BCrypt;
import at.favre.lib.crypto.bcrypt.LongPasswordStrategies;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Users of the built-in broker: who they are and where they may publish.
 *
 * <pre>
 * # name  password  topics
 * T01     Kx7-bench alder/T01/# alder/propagation
 * relays  $2a$10$4Gk... alder/+/report
 * </pre>
 *
 * A password written in clear is replaced by its bcrypt hash when the file is read, and the file is then for its owner alone.
 * Neither name nor password holds a space. <b>Safe from any thread.</b>
 */
final class Passwords {
    private static final BCrypt.Version VERSION = BCrypt.Version.VERSION_2A;
    /** 2^10 rounds, some 50 ms on a small machine: slow for who guesses, bearable for a sensor; our choice. */
    private static final int COST = 10;

    private static final String HASHED = "$2a$";

    private final Map<String, User> users;

    /** One line. */
    private record User(String name, String hash, List<TopicFilter> topics) {
        String line() {
            var words = new ArrayList<>(List.of(name, hash));
            topics.forEach(topic -> words.add(topic.text()));
            return String.join(" ", words);
        }
    }

    private Passwords(Map<String, User> users) {
        this.users = users;
    }

    /**
     * Reads the file, and writes it again where a password stood in clear.
     *
     * @throws BrokerException when it cannot be read or written, names nobody, or has a line that is none
     */
    static Passwords read(Path file) {
        var users = new LinkedHashMap<String, User>();
        var lines = new ArrayList<String>();
        boolean isClear = false;
        try {
            for (String line : Files.readAllLines(file)) {
                if (line.isBlank() || line.startsWith("#")) {
                    lines.add(line);
                    continue;
                }
                User user = user(line, lines.size() + 1, file);
                users.put(user.name(), user);
                lines.add(user.line());
                isClear |= !line.strip().split("\\s+", -1)[1].equals(user.hash());
            }
            if (isClear) {
                writeForOwner(file, lines);
            }
        } catch (IOException e) {
            throw nobody(file, e);
        }
        if (users.isEmpty()) {
            throw nobody(file, null);
        }
        return new Passwords(users);
    }

    private static User user(String line, int number, Path file) {
        String[] words = line.strip().split("\\s+", -1);
        if (words.length < 3) {
            throw new BrokerException(
                    file + ":" + number + ":1: a line needs a name, a password and the topics the user may publish to"
                            + "; such as T01 Kx7-bench alder/T01/#",
                    null);
        }
        var topics = new ArrayList<TopicFilter>();
        try {
            for (int i = 2; i < words.length; i++) {
                topics.add(new TopicFilter(words[i]));
            }
        } catch (IllegalArgumentException e) {
            throw new BrokerException(file + ":" + number + ":1: " + e.getMessage() + "; such as alder/T01/#", e);
        }
        String hash = words[1].startsWith(HASHED) ? words[1] : hash(words[1]);
        return new User(words[0], hash, List.copyOf(topics));
    }

    private static String hash(String password) {
        byte[] hash = BCrypt.with(VERSION, new SecureRandom(), LongPasswordStrategies.hashSha512(VERSION))
                .hash(COST, password.getBytes(StandardCharsets.UTF_8));
        return new String(hash, StandardCharsets.US_ASCII);
    }

    /**
     * Gives a user a password and topics, in place of what the file says about that name. The file is made if missing.
     *
     * @throws BrokerException when the name or a topic cannot be
     */
    static void put(Path file, String name, String password, List<String> topics) {
        User fresh = user(name + " " + password + " " + String.join(" ", topics), 1, file);
        try {
            if (!Files.exists(file)) {
                Files.createFile(file);
            }
            var lines = linesWithout(file, name);
            lines.add(fresh.line());
            writeForOwner(file, lines);
        } catch (IOException e) {
            throw new BrokerException(file + " cannot be written: " + e, e);
        }
    }

    /** Takes a user away; false when the file has none of that name. */
    static boolean remove(Path file, String name) {
        try {
            int before = Files.readAllLines(file).size();
            var lines = linesWithout(file, name);
            writeForOwner(file, lines);
            return lines.size() < before;
        } catch (IOException e) {
            throw new BrokerException(file + " cannot be written: " + e, e);
        }
    }

    private static List<String> linesWithout(Path file, String name) throws IOException {
        var lines = new ArrayList<>(Files.readAllLines(file));
        lines.removeIf(line -> line.strip().split("\\s+", -1)[0].equals(name));
        return lines;
    }

    /** The topics of every user, in the order of the file. */
    static Map<String, List<String>> topics(Path file) {
        var topics = new LinkedHashMap<String, List<String>>();
        read(file)
                .users
                .values()
                .forEach(user -> topics.put(
                        user.name(),
                        user.topics().stream().map(TopicFilter::text).toList()));
        return topics;
    }

    /** A new file put in the old one's place, so that a crash leaves one of the two. */
    private static void writeForOwner(Path file, List<String> lines) throws IOException {
        Path fresh = file.resolveSibling(file.getFileName() + ".new");
        Files.deleteIfExists(fresh);
        if (Files.getFileStore(file).supportsFileAttributeView("posix")) {
            Files.createFile(fresh, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
        }
        Files.write(fresh, lines);
        Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }

    private static BrokerException nobody(Path file, @Nullable IOException cause) {
        return new BrokerException(
                "the built-in broker is open to the network, and " + file + " names no user for it"
                        + "\nMaybe write a line NAME PASSWORD TOPIC for each sensor's user into it, such as"
                        + " T01 Kx7-bench alder/T01/#, or leave listen out of site.yaml.",
                cause);
    }

    /** Whether it is that user's password. Takes its time, on purpose. */
    boolean isRight(String name, String password) {
        User user = users.get(name);
        return user != null
                && BCrypt.verifyer(VERSION, LongPasswordStrategies.hashSha512(VERSION))
                        .verify(
                                password.getBytes(StandardCharsets.UTF_8),
                                user.hash().getBytes(StandardCharsets.US_ASCII))
                        .verified;
    }

    /** Whether that user may publish to the topic. */
    boolean mayPublish(String name, String topic) {
        User user = users.get(name);
        return user != null && user.topics().stream().anyMatch(filter -> filter.matches(topic));
    }

    /** Whether anybody may publish to the topic. */
    boolean isPublishedTo(String topic) {
        return users.keySet().stream().anyMatch(name -> mayPublish(name, topic));
    }

    /** Whether that user may hear all that the filter means, as far as its own topics go. */
    boolean mayHear(String name, String filter) {
        User user = users.get(name);
        return user != null && user.topics().stream().anyMatch(own -> own.covers(filter));
    }
}
