package traytender.ingest.broker;

import java.security.Principal;
import java.util.Set;
import javax.security.auth.Subject;
import org.apache.activemq.artemis.core.security.CheckType;
import org.apache.activemq.artemis.core.security.Role;
import org.apache.activemq.artemis.spi.core.protocol.RemotingConnection;
import org.apache.activemq.artemis.spi.core.security.ActiveMQSecurityManager5;
import org.jspecify.annotations.Nullable;

/** Lets in who knows a password; whoever is in may send and hear, and nobody manages the broker from outside. */
final class Doorkeeper implements ActiveMQSecurityManager5 {
    private final Passwords passwords;

    Doorkeeper(Passwords passwords) {
        this.passwords = passwords;
    }

    private record User(String name) implements Principal {
        @Override
        public String getName() {
            return name;
        }
    }

    @Override
    public @Nullable Subject authenticate(
            @Nullable String user,
            @Nullable String password,
            RemotingConnection connection,
            @Nullable String securityDomain) {
        if (user == null || password == null || !passwords.isRight(user, password)) {
            return null;
        }
        return new Subject(true, Set.of(new User(user)), Set.of(), Set.of());
    }

    @Override
    public boolean authorize(@Nullable Subject subject, Set<Role> roles, CheckType checkType, String address) {
        return subject != null && checkType != CheckType.MANAGE;
    }

    @Override
    public boolean validateUser(@Nullable String user, @Nullable String password) {
        return user != null && password != null && passwords.isRight(user, password);
    }

    @Override
    public boolean validateUserAndRole(
            @Nullable String user, @Nullable String password, Set<Role> roles, CheckType checkType) {
        return validateUser(user, password) && checkType != CheckType.MANAGE;
    }
}
