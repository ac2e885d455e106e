package traytender.ingest.broker;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import javax.security.auth.Subject;
import org.apache.activemq.artemis.core.security.CheckType;
import org.apache.activemq.artemis.core.security.Role;
import org.apache.activemq.artemis.spi.core.protocol.RemotingConnection;
import org.apache.activemq.artemis.spi.core.security.ActiveMQSecurityManager5;
import org.apache.activemq.artemis.spi.core.security.jaas.UserPrincipal;
import org.jspecify.annotations.Nullable;

/**
 * Lets in who knows a password. A sensor publishes to the topics in its line of {@link Passwords} and nowhere else, and hears those
 * and what the program says; the program itself does both everywhere; nobody manages the broker from outside. <b>Safe from any
 * thread.</b>
 */
final class Doorkeeper implements ActiveMQSecurityManager5 {
    private volatile Passwords passwords;
    private final String ownUser;
    private final String ownPassword;
    private final TopicFilter spoken;
    /** The password each user last came in with, digested: a broker asks often, and the slow hash is for strangers. */
    private final Map<String, byte[]> known = new ConcurrentHashMap<>();

    Doorkeeper(Passwords passwords, String ownUser, String ownPassword, String prefix) {
        this.passwords = passwords;
        this.ownUser = ownUser;
        this.ownPassword = ownPassword;
        this.spoken = new TopicFilter(prefix + "/#");
    }

    /** Other users from now on. */
    void change(Passwords others) {
        passwords = others;
        known.clear();
    }

    @Override
    public @Nullable Subject authenticate(
            @Nullable String user,
            @Nullable String password,
            RemotingConnection connection,
            @Nullable String securityDomain) {
        if (!validateUser(user, password)) {
            return null;
        }
        return new Subject(true, Set.of(new UserPrincipal(String.valueOf(user))), Set.of(), Set.of());
    }

    @Override
    public boolean authorize(@Nullable Subject subject, Set<Role> roles, CheckType checkType, String address) {
        if (subject == null) {
            return false;
        }
        return subject.getPrincipals(UserPrincipal.class).stream()
                .anyMatch(user -> may(user.getName(), checkType, address));
    }

    private boolean may(String user, CheckType checkType, String address) {
        if (user.equals(ownUser)) {
            return checkType != CheckType.MANAGE;
        }
        // A queue is asked for as ADDRESS::QUEUE.
        int queue = address.indexOf("::");
        String topic = queue < 0 ? address : address.substring(0, queue);
        return switch (checkType) {
            case MANAGE, EDIT, VIEW -> false;
            case SEND -> passwords.mayPublish(user, topic);
            default -> passwords.mayPublish(user, topic) || passwords.mayHear(user, topic) || spoken.covers(topic);
        };
    }

    @Override
    public boolean validateUser(@Nullable String user, @Nullable String password) {
        if (user == null || password == null) {
            return false;
        }
        if (user.equals(ownUser)) {
            return MessageDigest.isEqual(digest(password), digest(ownPassword));
        }
        byte[] digest = digest(password);
        byte[] before = known.get(user);
        if (before != null && MessageDigest.isEqual(before, digest)) {
            return true;
        }
        boolean isRight = passwords.isRight(user, password);
        if (isRight) {
            known.put(user, digest);
        }
        return isRight;
    }

    /** Salted with a secret that ends with the program. */
    private byte[] digest(String password) {
        try {
            return MessageDigest.getInstance("SHA-256")
                    .digest((ownPassword + password).getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    @Override
    public boolean validateUserAndRole(
            @Nullable String user, @Nullable String password, Set<Role> roles, CheckType checkType) {
        return validateUser(user, password) && user != null && user.equals(ownUser) && checkType != CheckType.MANAGE;
    }
}
