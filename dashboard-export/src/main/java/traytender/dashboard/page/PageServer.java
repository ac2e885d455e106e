package traytender.dashboard.page;

import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.compression.Gzip;
import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.util.JavalinException;
import java.net.InetAddress;
import java.net.URI;
import java.net.UnknownHostException;
import java.time.Clock;
import java.util.Optional;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.dashboard.record.Json;
import traytender.ingest.store.StoreException;

/** The running page. <b>Safe from any thread.</b> */
public final class PageServer implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(PageServer.class);
    /** Threads beyond one a connection, so that none waits for another's half-sent request; Jetty's own selectors need a few. */
    private static final int SPARE_THREADS = 8;

    private final Javalin javalin;
    private final Changes changes;
    private final URI address;

    private PageServer(Javalin javalin, Changes changes, URI address) {
        this.javalin = javalin;
        this.changes = changes;
        this.address = address;
    }

    /**
     * Serves the page until closed. On this machine's own loopback it is open; on any other address it asks for the password
     * of {@link PageSettings#passwordFile}.
     *
     * @throws PageException when the address cannot be bound, or is open to the network and no password can be had
     */
    public static PageServer start(BenchFacts facts, BenchActs acts, PageSettings settings) {
        return start(facts, acts, settings, Clock.systemUTC());
    }

    /** As {@link #start(BenchFacts, BenchActs, PageSettings)}; the clock tells how long a login lasts and a guesser waits. */
    static PageServer start(BenchFacts facts, BenchActs acts, PageSettings settings, Clock clock) {
        return start(facts, acts, settings, clock, RequestLimits.USUAL);
    }

    static PageServer start(
            BenchFacts facts, BenchActs acts, PageSettings settings, Clock clock, RequestLimits limits) {
        InetAddress bound = resolve(settings.address());
        Optional<Door> door = bound.isLoopbackAddress()
                ? Optional.empty()
                : Optional.of(new Door(
                        PagePassword.of(settings.passwordFile()),
                        MetricsToken.in(settings.passwordFile().resolveSibling(".")),
                        facts::health,
                        clock));
        var changes = new Changes(facts);
        Javalin javalin = Javalin.create(config -> {
            configure(config, facts, acts, settings, door, changes, limits);
            limits.applyTo(config);
        });
        try {
            javalin.start(settings.address(), settings.port());
            limits.applyTo(javalin);
        } catch (JavalinException e) {
            changes.close();
            throw new PageException(
                    "the page cannot be served on " + settings.address() + ":" + settings.port() + " (" + e.getMessage()
                            + ").\nMaybe another program uses that port; name another with --page ADDRESS:PORT.",
                    e);
        }
        return new PageServer(javalin, changes, browserAddress(settings.address(), bound, javalin.port()));
    }

    private static void configure(
            JavalinConfig config,
            BenchFacts facts,
            BenchActs acts,
            PageSettings settings,
            Optional<Door> door,
            Changes changes,
            RequestLimits limits) {
        config.startup.showJavalinBanner = false;
        config.startup.startupWatcherEnabled = false;
        config.http.generateEtags = true;
        config.http.prefer405over404 = true;
        config.http.compressionStrategy = new CompressionStrategy(null, new Gzip(6), null);
        var pool = new QueuedThreadPool(limits.connections() + SPARE_THREADS, 2);
        pool.setName("page");
        config.jetty.threadPool = pool;
        // Else a token or cookie that differs in case alone from an earlier one of the same connection would pass for
        // it.
        config.jetty.modifyHttpConfiguration(http -> http.setHeaderCacheCaseSensitive(true));
        HostGuard guard = HostGuard.of(settings.address());
        config.routes.before(context -> {
            PageHeaders.set(context);
            guard.check(context);
            OriginGuard.check(context);
        });
        door.ifPresent(it -> it.addTo(config.routes));
        new Api(facts).addTo(config.routes);
        new TraysApi(facts).addTo(config.routes);
        new NightsApi(facts).addTo(config.routes);
        new LabelsApi(facts, acts.people().settings()).addTo(config.routes);
        new JournalApi(facts, acts).addTo(config.routes);
        new VarietiesApi(facts).addTo(config.routes);
        new RoundApi(facts, acts).addTo(config.routes);
        new NoticesApi(acts.people()).addTo(config.routes);
        new LimitsApi(facts, acts.limits()).addTo(config.routes);
        new SetupApi(facts, acts.siteDesk(), acts.sensors()).addTo(config.routes);
        new DevicesApi(facts, acts.sensors()).addTo(config.routes);
        config.routes.sse("/api/v1/changes", changes::open);
        WebFiles.addTo(config);
        WebFiles.addTo(config.routes);
        addErrors(config.routes);
    }

    private static void addErrors(RoutesConfig routes) {
        routes.exception(Answer.class, (answer, context) -> error(context, answer.status(), answer.word()));
        routes.exception(
                StoreException.class,
                (failure, context) -> error(
                        context,
                        503,
                        String.valueOf(failure.getMessage()).lines().findFirst().orElse("")));
        routes.exception(
                HttpResponseException.class,
                (refusal, context) -> error(context, refusal.getStatus(), String.valueOf(refusal.getMessage())));
        routes.exception(Exception.class, (failure, context) -> {
            LOG.error("{} {} could not be answered", context.method(), context.path(), failure);
            error(context, 500, "the program could not answer; its log says why");
        });
        routes.error(404, "text/plain", context -> {});
    }

    static void error(Context context, int status, String word) {
        context.status(status).contentType("application/json");
        context.result(Json.write(Json.object().put("error", word)));
    }

    private static InetAddress resolve(String address) {
        try {
            return InetAddress.getByName(address);
        } catch (UnknownHostException e) {
            throw new PageException("the page cannot be served on " + address + ": no such address here", e);
        }
    }

    private static URI browserAddress(String name, InetAddress bound, int port) {
        String host = bound.isAnyLocalAddress() ? "localhost" : name.contains(":") ? "[" + name + "]" : name;
        return URI.create("http://" + host + ":" + port + "/");
    }

    /** Where a browser on this machine finds it. */
    public URI address() {
        return address;
    }

    /** Ends every connection and frees the port. */
    @Override
    public void close() {
        changes.close();
        javalin.stop();
    }
}
