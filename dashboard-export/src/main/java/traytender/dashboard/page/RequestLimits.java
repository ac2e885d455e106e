package traytender.dashboard.page;

import io.javalin.Javalin;
import io.javalin.config.JavalinConfig;
import java.time.Duration;
import org.eclipse.jetty.server.AbstractConnector;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.handler.MinimumDataRateHandler;

/**
 * How large and how slow a request may be, so that nobody holds up the page for the others.
 *
 * @param body longest body, in bytes; longer ones are answered 413
 * @param idle a connection on which nothing comes and nothing goes for so long is ended
 * @param bytesPerSecond a body that comes more slowly is answered 408, or its connection ended
 * @param connections how many are taken at a time, each with a thread of its own while it is read; others wait
 */
record RequestLimits(int body, Duration idle, int bytesPerSecond, int connections) {
    /** Our choice: 500 journal entries are some 100 kB, and a phone at the far end of the greenhouse still sends 100 bytes a second. */
    static final RequestLimits USUAL = new RequestLimits(1_000_000, Duration.ofSeconds(30), 100, 200);

    /** Before the start. */
    void applyTo(JavalinConfig config) {
        config.http.maxRequestSize = body;
        config.jetty.modifyServer(server -> {
            server.addBean(new NetworkConnectionLimit(connections, server));
            server.setHandler(new MinimumDataRateHandler(bytesPerSecond, 0));
        });
    }

    /** After it, when the connector is there. */
    void applyTo(Javalin javalin) {
        for (var connector : javalin.jettyServer().server().getConnectors()) {
            if (connector instanceof AbstractConnector taking) {
                taking.setIdleTimeout(idle.toMillis());
            }
        }
    }
}
