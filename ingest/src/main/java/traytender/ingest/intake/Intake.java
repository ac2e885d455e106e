package traytender.ingest.intake;

import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.folder.SiteFolder;
import traytender.config.reading.Reading;
import traytender.config.site.Broker;
import traytender.config.site.Mat;
import traytender.config.site.Probe;
import traytender.config.site.Relay;
import traytender.config.site.Site;
import traytender.ingest.broker.BrokerException;
import traytender.ingest.broker.BuiltInBroker;
import traytender.ingest.calibrate.Calibrator;
import traytender.ingest.decode.Decoded;
import traytender.ingest.decode.TopicDecoder;
import traytender.ingest.mqtt.Incoming;
import traytender.ingest.mqtt.MqttLink;
import traytender.ingest.store.AppendResult;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;
import traytender.ingest.store.StoreException;

/**
 * Takes messages from the broker to the disk. Whatever waits is stored as one group; only then is it acknowledged and handed on.
 * While the disk fails, the group is tried again and nothing is acknowledged, so the broker keeps what comes.
 *
 * <p><b>Safe from any thread.</b> One thread, {@code ingest-writer}, decodes and stores. The queue before it is bounded; when it
 * is full, no more is read from the broker.
 */
public final class Intake implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(Intake.class);
    private static final int QUEUE = 10_000;
    /** The payloads that may wait at one time; our choice, small enough for a small machine. */
    private static final int QUEUE_BYTES = 16 << 20;

    private static final int LARGEST_GROUP = 5_000;
    private static final long LOOK_MS = 200;
    private static final long FIRST_RETRY_MS = 250;
    /** By then some seconds have gone by; our choice. */
    private static final int TRIES_BEFORE_CUT_OFF = 4;

    private static final long LONGEST_RETRY_MS = 15_000;
    private static final long LONGEST_STOP_MS = 20_000;

    private volatile Named named;
    private final ReadingStore store;
    private final Consumer<List<Reading>> listener;
    private final Tally tally = new Tally();
    private final ClockCheck clockCheck;
    private final BlockingQueue<Incoming> queue = new ArrayBlockingQueue<>(QUEUE);
    private final Semaphore room = new Semaphore(QUEUE_BYTES);
    private final Thread writer = new Thread(this::work, "ingest-writer");
    private final @Nullable BuiltInBroker broker;
    private final MqttLink link;
    private final CountDownLatch stop = new CountDownLatch(1);
    private volatile @Nullable String trouble;
    private volatile boolean isCutOff;

    /** What the site names: probes, what their messages mean, and the relays' topics. */
    private record Named(Map<String, TopicDecoder> decoders, Map<String, Probe> probes, Set<String> relays) {
        static Named by(Site site) {
            var probes = new HashMap<String, Probe>();
            site.probes().forEach(probe -> probes.put(probe.id(), probe));
            var relays = site.mats().stream()
                    .map(Mat::relay)
                    .filter(Objects::nonNull)
                    .map(Relay::topic)
                    .collect(Collectors.toSet());
            return new Named(TopicDecoder.of(site), probes, relays);
        }
    }

    private Intake(
            SiteFolder folder,
            ReadingStore store,
            Clock clock,
            Consumer<List<Reading>> listener,
            @Nullable BuiltInBroker broker) {
        this.named = Named.by(folder.site());
        this.store = store;
        this.listener = listener;
        this.clockCheck = new ClockCheck(store, System::nanoTime);
        this.broker = broker;
        this.link =
                new MqttLink(Links.settings(folder, broker), named.decoders().keySet(), new Waiting(), clock);
    }

    /**
     * An intake that takes nothing yet; the built-in broker, where the site uses it, starts here, closed to sensors.
     *
     * @param listener given new readings, calibrated, in the order they came, once they are on disk; may wait
     * @throws BrokerException when the built-in broker cannot start
     */
    public static Intake of(SiteFolder folder, ReadingStore store, Clock clock, Consumer<List<Reading>> listener) {
        BuiltInBroker broker = folder.site().messages().broker() instanceof Broker.BuiltIn builtIn
                ? BuiltInBroker.start(
                        folder.data().resolve("broker"),
                        builtIn,
                        folder.path().resolve("passwords"),
                        folder.site().messages().prefix())
                : null;
        return new Intake(folder, store, clock, listener, broker);
    }

    /** Begins to take messages. */
    public void start() {
        writer.start();
        link.start();
    }

    /** What comes waits for the writer. */
    private final class Waiting implements MqttLink.Receiver {
        /** Where the queue or its share of memory is full, this waits, and so does the broker. */
        @Override
        public void take(Incoming message) throws InterruptedException {
            room.acquire(message.payload().length);
            queue.put(message);
        }

        /** At once: the writer may be held up for long by what waited at the broker. */
        @Override
        public void listening() {
            openWhenSubscribed();
        }
    }

    private void work() {
        var group = new ArrayList<Incoming>();
        while (!isStopping() || !queue.isEmpty()) {
            try {
                openWhenSubscribed();
                Incoming first = queue.poll(LOOK_MS, TimeUnit.MILLISECONDS);
                if (first != null) {
                    group.add(first);
                    queue.drainTo(group, LARGEST_GROUP - 1);
                    room.release(group.stream()
                            .mapToInt(message -> message.payload().length)
                            .sum());
                    take(group);
                    group.clear();
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return;
            }
        }
    }

    private void openWhenSubscribed() {
        if (broker == null || !link.state().isSubscribed()) {
            return;
        }
        try {
            broker.open();
        } catch (BrokerException e) {
            trouble = e.getMessage();
        }
    }

    private void take(List<Incoming> group) throws InterruptedException {
        var readings = new ArrayList<RawReading>();
        var refusals = new ArrayList<Runnable>();
        Map<String, TopicDecoder> decoders = named.decoders();
        for (Incoming message : group) {
            TopicDecoder decoder = decoders.get(message.topic());
            if (decoder == null) {
                unassigned(message);
                continue;
            }
            Decoded decoded = decoder.decode(message.payload(), clockCheck.arrival(message));
            readings.addAll(decoded.readings());
            refusals.add(() -> tally.refused(message, decoded.refusals()));
        }
        AppendResult result = store(readings);
        if (result == null) {
            return;
        }
        tally.stored(result.stored(), result.repeated());
        refusals.forEach(Runnable::run);
        result.fresh().forEach(reading -> clockCheck.stored(reading.timeMs()));
        group.forEach(link::acknowledge);
        hand(result.fresh());
    }

    private boolean isStopping() {
        return stop.getCount() == 0;
    }

    /** A mat's relay hears what the program sends it; that is no sensor's message. */
    private void unassigned(Incoming message) {
        if (!named.relays().contains(message.topic())) {
            tally.unassigned(message);
        }
    }

    /** Stores the readings; null when the program stops before the disk takes them. */
    private @Nullable AppendResult store(List<RawReading> readings) throws InterruptedException {
        if (readings.isEmpty()) {
            return new AppendResult(List.of(), 0);
        }
        long pause = FIRST_RETRY_MS;
        for (int tries = 1; true; tries++) {
            try {
                AppendResult result = store.append(readings);
                trouble = null;
                isCutOff = false;
                return result;
            } catch (RuntimeException e) {
                // Whatever fails there, the readings are not on disk: they are kept here and tried again.
                if (trouble == null) {
                    log.error("Readings cannot be stored: {}; trying again, and acknowledging nothing", e.getMessage());
                }
                trouble = "readings cannot be stored: " + e.getMessage();
                isCutOff = tries >= TRIES_BEFORE_CUT_OFF && isLasting(e);
                if (isStopping()) {
                    return null;
                }
                stop.await(pause, TimeUnit.MILLISECONDS);
                pause = Math.min(LONGEST_RETRY_MS, 2 * pause);
            }
        }
    }

    /** A disk that is full, and a damaged database, have ways of their own. */
    private static boolean isLasting(RuntimeException failure) {
        return failure instanceof StoreException store
                && switch (store.trouble()) {
                    case READ_ONLY, FILE, OTHER -> true;
                    case DISK_FULL, DAMAGED, BUSY, NEWER, IN_USE -> false;
                };
    }

    private void hand(List<RawReading> fresh) {
        var readings = new ArrayList<Reading>(fresh.size());
        Map<String, Probe> probes = named.probes();
        for (RawReading raw : fresh) {
            Probe probe = probes.get(raw.probe());
            if (probe != null) {
                readings.add(Calibrator.read(probe, raw));
            }
        }
        if (readings.isEmpty()) {
            return;
        }
        try {
            listener.accept(readings);
        } catch (RuntimeException e) {
            // They are on disk and acknowledged: whoever listens must not keep the next ones from it.
            log.error("Readings are stored, but could not be looked at", e);
        }
    }

    /** Takes messages by another site's probes from now on. Broker and store stay as they are; a change of those needs a new start. */
    public void takeOver(Site site) {
        named = Named.by(site);
        tally.assigned(named.decoders().keySet());
        link.hear(named.decoders().keySet());
    }

    /**
     * Lets the built-in broker ask for users and passwords as their file has them now; does nothing where sensors need none.
     *
     * @throws BrokerException when the file cannot be read; the users are then as before
     */
    public void readPasswords() {
        if (broker != null) {
            broker.readPasswords();
        }
    }

    /** What became of the readings since the start. */
    public Counts counts() {
        return tally.counts();
    }

    /** What was refused, by cause and topic, the most frequent first. */
    public List<Refusal> refusals() {
        return tally.refusals();
    }

    /** Topics heard that no probe names, in order of topic. */
    public List<Unassigned> unassigned() {
        return tally.unassigned();
    }

    /** How it stands. */
    public IntakeState state() {
        var troubles = new ArrayList<String>();
        var linkState = link.state();
        if (linkState.trouble() != null) {
            troubles.add(linkState.trouble());
        }
        if (trouble != null) {
            troubles.add(trouble);
        }
        String brokerTrouble = broker == null ? null : broker.trouble();
        if (brokerTrouble != null) {
            troubles.add(brokerTrouble);
        }
        boolean sensorsLetIn = broker == null || broker.port() != 0;
        return new IntakeState(linkState.isSubscribed() && sensorsLetIn, troubles);
    }

    /** Whether its threads have not ended. */
    public boolean isAlive() {
        return writer.isAlive() && link.isAlive();
    }

    /**
     * Whether its disk has failed under it: the built-in broker has ended itself, or the store has taken nothing several times though
     * its disk is not full. What is open there stays lost even when the disk is well again; a new start opens it anew.
     */
    public boolean hasLostItsDisk() {
        return isCutOff || (broker != null && broker.hasEnded());
    }

    /** Whether the program's own clock stands before the newest reading on disk, so that it must be wrong. */
    public boolean isClockWrong() {
        return clockCheck.isWrong();
    }

    /** When the program's own clock was set back while it ran; empty when it was not. */
    public Optional<SetBack> clockSetBack() {
        return Optional.ofNullable(clockCheck.setBack());
    }

    /** The built-in broker's port for sensors; 0 when there is none, or it is not open yet. */
    public int brokerPort() {
        return broker == null ? 0 : broker.port();
    }

    /**
     * Sends a message and waits until the broker has it.
     *
     * @throws traytender.ingest.mqtt.LinkException when it does not
     */
    public void publish(String topic, byte[] payload, boolean isRetained) {
        link.publish(topic, payload, isRetained);
    }

    /** Stores and acknowledges what has come so far and ends the connection, then the built-in broker. */
    @Override
    public void close() {
        stop.countDown();
        try {
            writer.join(LONGEST_STOP_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        link.close();
        if (broker != null) {
            broker.close();
        }
    }
}
