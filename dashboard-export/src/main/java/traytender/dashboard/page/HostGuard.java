package traytender.dashboard.page;

import io.javalin.http.Context;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;

/**
 * Answers only where the browser asked for this machine by an IP address or by a name of its own. A web site elsewhere
 * whose name is made to point here (DNS rebinding) asks by its own name, and gets nothing.
 */
final class HostGuard {
    private static final Pattern IPV4 = Pattern.compile("\\d{1,3}(\\.\\d{1,3}){3}");
    private static final Pattern IPV6 = Pattern.compile("\\[[0-9a-f:.]+]");
    private static final Pattern PORT = Pattern.compile(":\\d{1,5}$");

    private final Set<String> names;

    private HostGuard(Set<String> names) {
        this.names = names;
    }

    /** Knows {@code localhost}, the address the page is bound to, and this machine's name, also as {@code NAME.local}. */
    static HostGuard of(String address) {
        var names = new TreeSet<>(Set.of("localhost", address.toLowerCase(Locale.ROOT)));
        try {
            String own = InetAddress.getLocalHost().getHostName().toLowerCase(Locale.ROOT);
            names.add(own);
            names.add(own.split("\\.", 2)[0] + ".local");
        } catch (UnknownHostException e) {
            // A machine without a name is reached by address.
        }
        return new HostGuard(names);
    }

    void check(Context context) {
        String host = context.header("Host");
        if (host == null || !allows(host)) {
            throw Answer.wrong("this page is not served under that host name; use this machine's address");
        }
    }

    boolean allows(String host) {
        String name = PORT.matcher(host.toLowerCase(Locale.ROOT)).replaceFirst("");
        return names.contains(name)
                || IPV4.matcher(name).matches()
                || IPV6.matcher(name).matches();
    }
}
