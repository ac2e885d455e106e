package traytender.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Semaphore;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.IMqttToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The program's connection to a broker: quality of service 1, a session that outlives the connection, and acknowledgements
 * given by hand, after a reading is on disk. It connects again when the connection is lost, or when messages no longer come
 * although the broker has them; what was not acknowledged comes again then.
 *
 * <p><b>Safe from any thread.</b> One thread, {@code mqtt-link}, connects, subscribes and watches.
 */
public final class MqttLink implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(MqttLink.class);
    /** Hears every topic but the broker's own ($SYS). */
    private static final String EVERYTHING = "#";

    private static final byte[] WATCHING = "watching".getBytes(StandardCharsets.UTF_8);
    private static final byte[] GONE = "gone".getBytes(StandardCharsets.UTF_8);
    /** After so many connections that never brought the program's own status, the broker is taken to forbid it. */
    private static final int SILENT_CONNECTIONS = 3;

    private static final int REFUSED = 0x80;
    /** Messages of its own that may be under way at one time. */
    private static final int MOST_UNDER_WAY = 100;

    private static final int KEEP_ALIVE_SECONDS = 20;
    private static final int CONNECT_SECONDS = 10;
    private static final long ANSWER_MS = 10_000;
    private static final long FIRST_PAUSE_MS = 500;
    private static final long LONGEST_PAUSE_MS = 15_000;
    private static final long LOOK_MS = 1_000;

    private final LinkSettings settings;
    private final Patience patience;
    private volatile Set<String> topics;
    private final Receiver receiver;
    private final Clock clock;
    private final Semaphore wake = new Semaphore(0);
    private final AtomicInteger generation = new AtomicInteger();
    private final Thread thread = new Thread(this::work, "mqtt-link");
    private volatile boolean closing;
    private volatile boolean lost;
    /** A message waits for room in the program's own queue, and whatever comes behind it waits too. */
    private volatile boolean isTaking;

    private volatile long lastHeard;
    /** Where the broker lets the program hear only its probes' topics, it never hears its own echo. */
    private volatile boolean hearsEverything;

    /** How often this connection brought the program's own status. */
    private volatile int echoes;

    private volatile boolean everEchoed;

    private volatile LinkState state = new LinkState(false, null);
    private volatile @Nullable MqttAsyncClient client;

    /**
     * How long quiet is believed.
     *
     * @param quietNanos after so long without any message the link listens for its own echo
     * @param echoNanos how long that may take
     * @param answerNanos how long an answer may take while nothing else comes either
     */
    record Patience(long quietNanos, long echoNanos, long answerNanos) {
        /** Our choice: a dead connection costs at most a minute and a half. */
        static final Patience USUAL =
                new Patience(TimeUnit.SECONDS.toNanos(60), TimeUnit.SECONDS.toNanos(30), TimeUnit.SECONDS.toNanos(10));
    }

    /** Takes what comes. */
    @FunctionalInterface
    public interface Receiver {
        /** Takes a message, on the client's own thread; may wait while a queue is full, for then nothing more is read. */
        void take(Incoming message) throws InterruptedException;

        /** Told each time when the broker has confirmed that messages will come, on the link's own thread. */
        default void listening() {}
    }

    /**
     * A link that is not connected yet.
     *
     * @param topics what must be heard where the broker does not let the program hear everything
     */
    public MqttLink(LinkSettings settings, Collection<String> topics, Receiver receiver, Clock clock) {
        this(settings, topics, receiver, clock, Patience.USUAL);
    }

    MqttLink(LinkSettings settings, Collection<String> topics, Receiver receiver, Clock clock, Patience patience) {
        this.settings = settings;
        this.patience = patience;
        this.topics = Set.copyOf(topics);
        this.receiver = receiver;
        this.clock = clock;
    }

    /** Connects, in the background, and stays connected until closed. */
    public void start() {
        thread.start();
    }

    /** Whether its thread has not ended. */
    public boolean isAlive() {
        return thread.isAlive();
    }

    /** Hears these topics from now on, also where the broker does not let the program hear everything. */
    public void hear(Collection<String> others) {
        Set<String> before = topics;
        topics = Set.copyOf(others);
        if (client != null && !hearsEverything && !before.containsAll(topics)) {
            reconnect();
        }
    }

    /** How it stands. */
    public LinkState state() {
        return state;
    }

    /** Tells the broker that a message is on disk; nothing happens when it came on an earlier connection. */
    public void acknowledge(Incoming message) {
        Incoming.Receipt receipt = message.receipt();
        MqttAsyncClient connected = client;
        if (receipt.qos() == 0 || receipt.generation() != generation.get() || connected == null) {
            return;
        }
        try {
            connected.messageArrivedComplete(receipt.id(), receipt.qos());
        } catch (MqttException e) {
            log.warn("A message could not be acknowledged ({}); it will come again", e.getMessage());
            reconnect();
        }
    }

    /**
     * Sends a message and waits until the broker has it.
     *
     * @throws LinkException when there is no connection, or no answer
     */
    public void publish(String topic, byte[] payload, boolean isRetained) {
        MqttAsyncClient connected = client;
        if (connected == null || !connected.isConnected()) {
            throw new LinkException("no connection to " + settings, null);
        }
        try {
            var answer = new Answer();
            connected.publish(topic, payload, 1, isRetained, null, answer);
            await(answer);
        } catch (MqttException e) {
            throw new LinkException(topic + " was not taken by " + settings + ": " + e.getMessage(), e);
        }
    }

    /** Waits as long as messages keep coming: behind a long queue the answer comes last. */
    private void await(Answer answer) throws MqttException {
        long asked = System.nanoTime();
        while (!answer.hasCome(LOOK_MS)) {
            long now = System.nanoTime();
            boolean isQuiet = !isTaking && Math.min(now - asked, now - lastHeard) > patience.answerNanos();
            if (isQuiet || lost || closing) {
                throw new MqttException(MqttException.REASON_CODE_CLIENT_TIMEOUT);
            }
        }
    }

    /** What is longer than can be used is not kept; that it is longer can still be seen. */
    private static byte[] cut(byte[] payload) {
        return payload.length > Incoming.LARGEST ? Arrays.copyOf(payload, Incoming.LARGEST) : payload;
    }

    // Written by one connection's thread at a time.
    @SuppressWarnings("NonAtomicVolatileUpdate")
    private void noteEcho() {
        echoes++;
        everEchoed = true;
    }

    private void reconnect() {
        lost = true;
        wake.release();
    }

    private void work() {
        long pause = FIRST_PAUSE_MS;
        try {
            while (!closing) {
                pause = round(pause);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** One connection, from its beginning to its end; gives the pause before the next but one. */
    private long round(long pause) throws InterruptedException {
        try {
            connect();
            watch();
            return FIRST_PAUSE_MS;
        } catch (MqttException | RuntimeException e) {
            boolean wasConnected = state.isSubscribed();
            tell(e);
            drop();
            // Somewhat at random, so that many programs do not come back to a broker all at once.
            rest(pause / 2 + ThreadLocalRandom.current().nextLong(pause / 2));
            return wasConnected ? FIRST_PAUSE_MS : Math.min(LONGEST_PAUSE_MS, pause * 2);
        } finally {
            drop();
        }
    }

    private void tell(Exception failure) {
        String trouble = "no connection to the broker " + settings + ": " + reason(failure);
        if (!trouble.equals(state.trouble()) && !closing) {
            log.warn("{}; trying again", trouble);
        }
        state = new LinkState(false, trouble);
    }

    private static String reason(Throwable failure) {
        Throwable root = failure;
        while (root.getCause() != null) {
            root = root.getCause();
        }
        return root == failure
                ? String.valueOf(failure.getMessage())
                : failure.getMessage() + " (" + root.getMessage() + ")";
    }

    private void connect() throws MqttException {
        lost = false;
        echoes = 0;
        var next = new MqttAsyncClient(settings.uri(), settings.clientId(), new MemoryPersistence());
        next.setManualAcks(true);
        next.setCallback(new Callback(generation.incrementAndGet()));
        client = next;
        next.connect(options()).waitForCompletion(ANSWER_MS + CONNECT_SECONDS * 1000L);
        subscribe(next);
        publish(settings.statusTopic(), WATCHING, true);
        lastHeard = System.nanoTime();
        state = new LinkState(true, null);
        log.info("Listening to {}", settings);
        receiver.listening();
    }

    private void subscribe(MqttAsyncClient connected) throws MqttException {
        hearsEverything = isGranted(connected, List.of(EVERYTHING));
        if (hearsEverything || topics.isEmpty()) {
            return;
        }
        log.warn("{} does not let the program hear every topic; unassigned topics will not be listed", settings);
        if (!isGranted(connected, List.copyOf(topics))) {
            throw new LinkException("the broker refuses the topics that the site's probes name", null);
        }
    }

    private boolean isGranted(MqttAsyncClient connected, List<String> filters) throws MqttException {
        int[] qos = new int[filters.size()];
        Arrays.fill(qos, 1);
        var answer = new Answer();
        IMqttToken token = connected.subscribe(filters.toArray(String[]::new), qos, null, answer);
        try {
            await(answer);
        } catch (MqttException e) {
            if (e.getReasonCode() == MqttException.REASON_CODE_SUBSCRIBE_FAILED || e.getReasonCode() == REFUSED) {
                return false;
            }
            throw e;
        }
        return Arrays.stream(token.getGrantedQos()).noneMatch(granted -> granted == REFUSED);
    }

    private MqttConnectOptions options() {
        var options = new MqttConnectOptions();
        options.setMqttVersion(MqttConnectOptions.MQTT_VERSION_3_1_1);
        options.setCleanSession(false);
        options.setAutomaticReconnect(false);
        options.setMaxInflight(MOST_UNDER_WAY);
        options.setKeepAliveInterval(KEEP_ALIVE_SECONDS);
        options.setConnectionTimeout(CONNECT_SECONDS);
        options.setWill(settings.statusTopic(), GONE, 1, true);
        if (settings.user() != null) {
            options.setUserName(settings.user());
        }
        if (settings.password() != null) {
            options.setPassword(settings.password().toCharArray());
        }
        if (settings.trust() != null) {
            options.setSocketFactory(Trust.with(settings.trust()));
        }
        return options;
    }

    /**
     * Returns when the connection is lost, or messages no longer come. Whether they come is seen by the program's own status,
     * which it sends again when all is quiet and hears like any other message. Where the broker does not let it hear that, the
     * first connections show it, and quiet is believed.
     */
    private void watch() throws InterruptedException, MqttException {
        // Connecting has asked already; what was heard before does not count as its answer.
        long heardWhenAsked = echoes > 0 ? lastHeard - 1 : lastHeard;
        while (!closing && !lost) {
            rest(LOOK_MS);
            long heard = lastHeard;
            long quiet = System.nanoTime() - heard;
            if (isTaking || quiet < patience.quietNanos()) {
                continue;
            }
            if (heard != heardWhenAsked) {
                heardWhenAsked = heard;
                publish(settings.statusTopic(), WATCHING, true);
            } else if (quiet > patience.quietNanos() + patience.echoNanos() && expectsEcho()) {
                throw new LinkException("the connection no longer brings messages", null);
            }
        }
        if (lost && !closing) {
            throw new LinkException("the connection was lost", null);
        }
    }

    private boolean expectsEcho() {
        return hearsEverything && (everEchoed || generation.get() < SILENT_CONNECTIONS);
    }

    private void drop() {
        MqttAsyncClient old = client;
        client = null;
        if (old == null) {
            return;
        }
        try {
            if (closing && old.isConnected()) {
                old.publish(settings.statusTopic(), GONE, 1, true).waitForCompletion(ANSWER_MS);
                old.disconnect().waitForCompletion(ANSWER_MS);
            } else {
                old.disconnectForcibly(0, 0, false);
            }
        } catch (MqttException e) {
            log.debug("The old connection did not end well: {}", e.getMessage());
        } finally {
            closeQuietly(old);
        }
    }

    private static void closeQuietly(MqttAsyncClient old) {
        try {
            old.close(true);
        } catch (MqttException e) {
            log.debug("The old connection did not close: {}", e.getMessage());
        }
    }

    /** Rests until the time is over or something happens. */
    private void rest(long ms) throws InterruptedException {
        if (!closing && wake.tryAcquire(ms, TimeUnit.MILLISECONDS)) {
            wake.drainPermits();
        }
    }

    /** Says that the program is gone and ends the connection; what is not acknowledged stays with the broker. */
    @Override
    public void close() {
        closing = true;
        wake.release();
        try {
            thread.join(2 * ANSWER_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        state = new LinkState(false, null);
    }

    /** Hears one connection. */
    private final class Callback implements MqttCallback {
        private final int ownGeneration;

        Callback(int ownGeneration) {
            this.ownGeneration = ownGeneration;
        }

        @Override
        public void messageArrived(String topic, MqttMessage message) throws InterruptedException {
            lastHeard = System.nanoTime();
            if (topic.equals(settings.statusTopic()) && !message.isRetained()) {
                noteEcho();
            }
            var receipt = new Incoming.Receipt(ownGeneration, message.getId(), message.getQos());
            var incoming =
                    new Incoming(topic, cut(message.getPayload()), clock.instant(), message.isRetained(), receipt);
            if (settings.isOwn(topic) && !topics.contains(topic)) {
                acknowledge(incoming);
                return;
            }
            isTaking = true;
            try {
                receiver.take(incoming);
            } finally {
                isTaking = false;
                lastHeard = System.nanoTime();
            }
        }

        @Override
        public void connectionLost(Throwable cause) {
            if (ownGeneration == generation.get()) {
                reconnect();
            }
        }

        @Override
        public void deliveryComplete(IMqttDeliveryToken token) {}
    }
}
