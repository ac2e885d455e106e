package traytender.dashboard.command;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.NavigableSet;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.eclipse.paho.client.mqttv3.IMqttActionListener;
import org.eclipse.paho.client.mqttv3.IMqttToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.jspecify.annotations.Nullable;

/**
 * A moisture probe that sends numbered readings, up to 100 a second, and each one again until the broker has
 * acknowledged it: what an honest sensor with a small memory does. It remembers which numbers were acknowledged.
 */
final class PatientSensor implements AutoCloseable {
    /** Messages on their way at one time. */
    private static final int WINDOW = 20;

    private static final long ANSWER_MS = 5_000;
    private static final long PAUSE_MS = 50;
    private static final long BETWEEN_NANOS = TimeUnit.MILLISECONDS.toNanos(10);

    private final int port;
    private final String probe;
    private final String topic;
    private final Instant first;
    private final int stepSeconds;
    private final NavigableSet<Integer> onTheirWay = new ConcurrentSkipListSet<>();
    private final Set<Integer> acknowledged = ConcurrentHashMap.newKeySet();
    private final Thread thread = new Thread(this::work, "patient-sensor");
    private int next;
    private volatile boolean finishing;

    private PatientSensor(int port, String probe, String topic, Instant first, int stepSeconds) {
        this.port = port;
        this.probe = probe;
        this.topic = topic;
        this.first = first;
        this.stepSeconds = stepSeconds;
    }

    /**
     * Begins to send.
     *
     * @param first time of reading 0
     * @param stepSeconds event time between two readings, in s
     */
    static PatientSensor start(int port, String probe, String topic, Instant first, int stepSeconds) {
        var sensor = new PatientSensor(port, probe, topic, first, stepSeconds);
        sensor.thread.start();
        return sensor;
    }

    String probe() {
        return probe;
    }

    /** When a reading was measured. */
    Instant time(int number) {
        return first.plusSeconds((long) number * stepSeconds);
    }

    /** What it measured: 20 minutes far below the dry line, then 20 well above it, and its number in the digits behind the point. */
    double value(int number) {
        boolean isDry = (long) number * stepSeconds / 1_200 % 2 == 0;
        return (isDry ? 2_700 : 1_700) + number / 1e6;
    }

    /** Numbers that the broker has acknowledged. */
    Set<Integer> acknowledged() {
        return acknowledged;
    }

    /** Measures nothing more, and returns when everything measured has been acknowledged. */
    void finish() throws InterruptedException {
        finishing = true;
        thread.join(TimeUnit.SECONDS.toMillis(120));
        if (thread.isAlive()) {
            throw new IllegalStateException(probe + ": the broker does not take " + onTheirWay);
        }
    }

    private void work() {
        try {
            while (!finishing || !onTheirWay.isEmpty()) {
                connection();
                TimeUnit.MILLISECONDS.sleep(PAUSE_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void connection() throws InterruptedException {
        MqttAsyncClient client = null;
        try {
            client = new MqttAsyncClient("tcp://127.0.0.1:" + port, "sensor-" + probe, new MemoryPersistence());
            var options = new MqttConnectOptions();
            options.setMaxInflight(WINDOW + 1);
            client.connect(options).waitForCompletion(ANSWER_MS);
            send(client);
        } catch (MqttException e) {
            // The broker is away: what was not acknowledged is sent again over the next connection.
            TimeUnit.MILLISECONDS.sleep(PAUSE_MS);
        } finally {
            close(client);
        }
    }

    private void send(MqttAsyncClient client) throws MqttException, InterruptedException {
        var window = new Semaphore(WINDOW);
        for (int number : onTheirWay) {
            send(client, number, window);
        }
        while (client.isConnected() && (!finishing || !onTheirWay.isEmpty())) {
            if (finishing) {
                TimeUnit.MILLISECONDS.sleep(PAUSE_MS);
            } else {
                // Faster than any bench, and not so fast that the broker's queue outgrows all bounds while the program
                // is away.
                LockSupport.parkNanos(BETWEEN_NANOS);
                onTheirWay.add(next);
                send(client, next++, window);
            }
        }
    }

    private void send(MqttAsyncClient client, int number, Semaphore window) throws MqttException, InterruptedException {
        while (!window.tryAcquire(PAUSE_MS, TimeUnit.MILLISECONDS)) {
            if (!client.isConnected()) {
                throw new MqttException(MqttException.REASON_CODE_CONNECTION_LOST);
            }
        }
        String payload = "{\"soil\": " + value(number) + ", \"at\": \"" + time(number) + "\"}";
        client.publish(topic, payload.getBytes(StandardCharsets.UTF_8), 1, false, null, new IMqttActionListener() {
            @Override
            public void onSuccess(IMqttToken token) {
                acknowledged.add(number);
                onTheirWay.remove(number);
                window.release();
            }

            @Override
            public void onFailure(IMqttToken token, Throwable cause) {
                window.release();
            }
        });
    }

    private static void close(@Nullable MqttAsyncClient client) {
        if (client == null) {
            return;
        }
        try {
            client.disconnectForcibly(0, 0, false);
        } catch (MqttException e) {
            // It was not connected.
        }
        try {
            client.close(true);
        } catch (MqttException e) {
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void close() {
        finishing = true;
        thread.interrupt();
    }
}
