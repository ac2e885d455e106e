package traytender.ingest.broker;

import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/** Gives sensors users of the built-in broker, each with a password of its own that nobody has to think of. */
public final class Credentials {
    /** Without letters and digits that are taken for each other on a label. */
    private static final String LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";
    /** 20 of 31 signs are 99 bits: beyond guessing. */
    private static final int LENGTH = 20;

    private static final Pattern NAME = Pattern.compile("[^\\s#]\\S*");

    private Credentials() {}

    /**
     * Makes a new password for a user, who may publish to these topics from the next start of the program on. A user of that name
     * loses the old one.
     *
     * @param file the site's file {@code passwords}, made if missing; it holds the hash
     * @param topics topic filters
     * @return the password, which is kept nowhere in clear
     * @throws BrokerException when the name or a topic cannot be, or the file not written
     */
    public static String give(Path file, String name, List<String> topics) {
        if (!NAME.matcher(name).matches() || topics.stream().anyMatch(topic -> topic.matches(".*\\s.*"))) {
            throw new BrokerException("neither name nor topic may hold a space, nor a name begin with #", null);
        }
        var random = new SecureRandom();
        var password = new StringBuilder();
        for (int i = 0; i < LENGTH; i++) {
            password.append(LETTERS.charAt(random.nextInt(LETTERS.length())));
        }
        Passwords.put(file, name, password.toString(), topics);
        return password.toString();
    }

    /**
     * The users and the topics each may publish to, in the order of the file; empty when there is no file.
     *
     * @throws BrokerException when the file cannot be read
     */
    public static Map<String, List<String>> users(Path file) {
        return Files.exists(file) ? Passwords.topics(file) : Map.of();
    }

    /**
     * Takes a user's name and password away.
     *
     * @return whether there was one
     * @throws BrokerException when the file cannot be written, or it is the last user's
     */
    public static boolean revoke(Path file, String name) {
        Map<String, List<String>> users = users(file);
        if (users.size() == 1 && users.containsKey(name)) {
            throw new BrokerException(
                    name
                            + " is the last user; give another sensor its credentials first, or let none in from the network",
                    null);
        }
        return users.containsKey(name) && Passwords.remove(file, name);
    }

    /**
     * Which of these topics no user may publish to yet, in their order.
     *
     * @throws BrokerException when the file cannot be read
     */
    public static List<String> missing(Path file, Collection<String> topics) {
        if (!Files.exists(file)) {
            return List.copyOf(topics);
        }
        var passwords = Passwords.read(file);
        var missing = new ArrayList<>(topics);
        missing.removeIf(passwords::isPublishedTo);
        return missing;
    }
}
