package traytender.dashboard.page;

import io.javalin.Javalin;
import java.net.URI;

/** The running page. <b>Safe from any thread.</b> */
public final class PageServer implements AutoCloseable {
    private final Javalin javalin;
    private final URI address;

    private PageServer(Javalin javalin, URI address) {
        this.javalin = javalin;
        this.address = address;
    }

    /**
     * Serves the page until closed.
     *
     * @throws PageException when the address cannot be bound, or is open to the network and no password is set
     */
    public static PageServer start(BenchFacts facts, PageSettings settings) {
        Javalin javalin = Javalin.create(config -> {
            config.startup.showJavalinBanner = false;
            config.routes.get("/health", context -> context.json(facts.health()));
        });
        javalin.start(settings.address(), settings.port());
        return new PageServer(javalin, URI.create("http://" + settings.address() + ":" + javalin.port() + "/"));
    }

    /** Where a browser on this machine finds it. */
    public URI address() {
        return address;
    }

    /** Ends every connection and frees the port. */
    @Override
    public void close() {
        javalin.stop();
    }
}
