package traytender.ingest.mqtt;

import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.client.mqttv3.IMqttActionListener;
import org.eclipse.paho.client.mqttv3.IMqttToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.jspecify.annotations.Nullable;

/**
 * Sends messages as a sensor does, with quality of service 1, many on their way at once. <b>Used by one thread.</b>
 */
public final class Sender implements AutoCloseable {
    private static final int ON_THEIR_WAY = 500;
    private static final long ANSWER_SECONDS = 30;

    private final MqttAsyncClient client;
    private final Semaphore places = new Semaphore(ON_THEIR_WAY);
    private volatile @Nullable Throwable failure;

    private Sender(MqttAsyncClient client) {
        this.client = client;
    }

    /**
     * Connects.
     *
     * @throws LinkException when there is no broker there
     */
    public static Sender connect(String uri, String clientId) {
        try {
            var client = new MqttAsyncClient(uri, clientId, new MemoryPersistence());
            var options = new MqttConnectOptions();
            options.setMaxInflight(ON_THEIR_WAY + 1);
            options.setAutomaticReconnect(true);
            client.connect(options).waitForCompletion(TimeUnit.SECONDS.toMillis(ANSWER_SECONDS));
            return new Sender(client);
        } catch (MqttException e) {
            throw new LinkException("no connection to " + uri + ": " + e.getMessage(), e);
        }
    }

    /**
     * Sends a message; waits while too many are on their way.
     *
     * @throws LinkException when the broker does not take messages
     */
    public void send(String topic, byte[] payload) throws InterruptedException {
        take(1);
        try {
            client.publish(topic, payload, 1, false, null, new Done());
        } catch (MqttException e) {
            places.release();
            throw new LinkException(topic + " cannot be sent: " + e.getMessage(), e);
        }
    }

    /**
     * Waits until the broker has everything that was sent.
     *
     * @throws LinkException when it does not take it
     */
    public void flush() throws InterruptedException {
        take(ON_THEIR_WAY);
        places.release(ON_THEIR_WAY);
    }

    private void take(int count) throws InterruptedException {
        boolean isTaken = places.tryAcquire(count, ANSWER_SECONDS, TimeUnit.SECONDS);
        if (!isTaken || failure != null) {
            throw new LinkException("the broker takes no messages", failure);
        }
    }

    @Override
    public void close() {
        try {
            client.disconnectForcibly(0, TimeUnit.SECONDS.toMillis(1));
            client.close(true);
        } catch (MqttException e) {
            throw new LinkException("the connection did not end well: " + e.getMessage(), e);
        }
    }

    private final class Done implements IMqttActionListener {
        @Override
        public void onSuccess(IMqttToken token) {
            places.release();
        }

        @Override
        public void onFailure(IMqttToken token, Throwable cause) {
            failure = cause;
            places.release();
        }
    }
}
