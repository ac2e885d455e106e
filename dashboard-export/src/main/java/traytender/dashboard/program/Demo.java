package traytender.dashboard.program;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.folder.SiteFolder;
import traytender.dashboard.page.PageSettings;
import traytender.ingest.mqtt.LinkException;
import traytender.ingest.mqtt.Sender;
import traytender.ingest.nursery.DemoNursery;
import traytender.ingest.nursery.probe.SimulatedMessage;
import traytender.ingest.store.SiteStore;

/**
 * The made-up nursery with the whole program around it: its past is sent through the real broker into the real store as fast as
 * that goes, then its sensors go on live.
 */
public final class Demo implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(Demo.class);
    /** Marks a folder as the demo's own, so that it never writes over a grower's site. */
    private static final String MARK = "made-by-demo";

    private static final long SEED = 20260314;
    private static final Duration LONGEST_START = Duration.ofMinutes(2);
    private static final long LOOK_MS = 250;
    /** Looks without a new reading after which all that was sent has come through. */
    private static final int QUIET_LOOKS = 4;

    private final Program program;
    private final Sender sender;
    private final DemoNursery nursery;
    private final Clock clock;
    private final Thread thread = new Thread(this::live, "nursery");
    private volatile boolean stopping;

    private Demo(Program program, Sender sender, DemoNursery nursery, Clock clock) {
        this.program = program;
        this.sender = sender;
        this.nursery = nursery;
        this.clock = clock;
    }

    /**
     * Starts it; returns when its past is stored and its page answers.
     *
     * @param folder made when missing
     * @param settings where to serve the page of the site folder
     * @throws ProgramException when the folder holds somebody's own site
     */
    public static Demo start(Path folder, Function<SiteFolder, PageSettings> settings, Clock clock) {
        claim(folder);
        var nursery = DemoNursery.create(folder, clock.instant(), SEED);
        try (SiteStore store = Stores.toWrite(nursery.folder(), clock)) {
            store.journal().addAll(nursery.journal());
        }
        var program = Program.prepare(nursery.folder(), settings.apply(nursery.folder()), clock);
        @Nullable Sender sender = null;
        try {
            program.takeMessages();
            sender = connected(program);
            log.info(
                    "Sending {} messages of the nursery's past",
                    nursery.history().size());
            sendAll(sender, nursery.history());
            sender.flush();
            awaitStored(program);
            program.watch();
            var demo = new Demo(program, sender, nursery, clock);
            demo.thread.start();
            return demo;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            stop(program, sender);
            throw new ProgramException("interrupted while the nursery's past was sent", e);
        } catch (RuntimeException e) {
            stop(program, sender);
            throw e;
        }
    }

    private static void claim(Path folder) {
        try {
            if (Files.exists(folder.resolve("site.yaml")) && !Files.exists(folder.resolve(MARK))) {
                throw new ProgramException(folder + " holds a site of its own, which the demo would write over."
                        + "\nMaybe name a new folder, or say run in place of demo.");
            }
            Files.createDirectories(folder);
            Files.writeString(folder.resolve(MARK), "");
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write " + folder + ": " + e.getMessage(), e);
        }
    }

    private static Sender connected(Program program) throws InterruptedException {
        for (long waited = 0; program.brokerPort() == 0; waited += LOOK_MS) {
            if (waited > LONGEST_START.toMillis()) {
                throw new ProgramException(
                        "the built-in broker does not open: " + program.health().causes());
            }
            TimeUnit.MILLISECONDS.sleep(LOOK_MS);
        }
        return Sender.connect("tcp://127.0.0.1:" + program.brokerPort(), "alder-lane-nursery");
    }

    private static void sendAll(Sender sender, List<SimulatedMessage> messages) throws InterruptedException {
        for (SimulatedMessage message : messages) {
            sender.send(message.topic(), message.payload());
        }
    }

    private static void awaitStored(Program program) throws InterruptedException {
        long before = -1;
        for (int quiet = 0; quiet < QUIET_LOOKS; ) {
            TimeUnit.MILLISECONDS.sleep(LOOK_MS);
            long now = program.received();
            quiet = now == before ? quiet + 1 : 0;
            before = now;
        }
    }

    private void live() {
        try {
            while (!stopping) {
                try {
                    sendAll(sender, nursery.next(clock.instant()));
                } catch (LinkException e) {
                    log.warn("The nursery's sensors cannot send: {}", e.getMessage());
                }
                TimeUnit.SECONDS.sleep(1);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** The program around the nursery. */
    public Program program() {
        return program;
    }

    @Override
    public void close() {
        stopping = true;
        thread.interrupt();
        stop(program, sender);
    }

    private static void stop(Program program, @Nullable Sender sender) {
        try {
            if (sender != null) {
                sender.close();
            }
        } catch (LinkException e) {
            log.debug("The sensors' connection", e);
        } finally {
            program.close();
        }
    }
}
