package traytender.ingest.mqtt;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.eclipse.paho.client.mqttv3.MqttClient;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.jspecify.annotations.Nullable;

/** A sensor, or a listener on the bench, of the tests that need no outside program: connects, publishes, hears. */
public final class Sensor implements AutoCloseable {
    private final MqttClient client;
    private final List<String> heard = new CopyOnWriteArrayList<>();

    private Sensor(MqttClient client) {
        this.client = client;
    }

    /** Connects to a broker at a loopback port, without a user. */
    public static Sensor at(int port) throws MqttException {
        return at(port, null, null);
    }

    /** Connects as a user. */
    public static Sensor at(int port, @Nullable String user, @Nullable String password) throws MqttException {
        var client = new MqttClient("tcp://127.0.0.1:" + port, MqttClient.generateClientId(), new MemoryPersistence());
        client.setTimeToWait(10_000);
        var options = new MqttConnectOptions();
        // Paho wakes the publisher a moment before it counts the message as done; on a busy machine ten such moments
        // add up.
        options.setMaxInflight(1_000);
        if (user != null && password != null) {
            options.setUserName(user);
            options.setPassword(password.toCharArray());
        }
        try {
            client.connect(options);
        } catch (MqttException e) {
            client.close(true);
            throw e;
        }
        return new Sensor(client);
    }

    /** Connects as a user by TLS, trusting a PEM certificate. */
    public static Sensor byTls(int port, Path certificate, String user, String password) throws MqttException {
        var client = new MqttClient("ssl://127.0.0.1:" + port, MqttClient.generateClientId(), new MemoryPersistence());
        client.setTimeToWait(10_000);
        var options = new MqttConnectOptions();
        options.setSocketFactory(Trust.with(certificate));
        options.setUserName(user);
        options.setPassword(password.toCharArray());
        try {
            client.connect(options);
            return new Sensor(client);
        } catch (MqttException e) {
            client.close(true);
            throw e;
        }
    }

    /** Publishes and returns when the broker has acknowledged. */
    public void publish(String topic, String payload) throws MqttException {
        client.publish(topic, payload.getBytes(StandardCharsets.UTF_8), 1, false);
    }

    /** Publishes without waiting for anything, quality of service 0. */
    public void shout(String topic, byte[] payload) throws MqttException {
        client.publish(topic, payload, 0, false);
    }

    /** Publishes what the broker keeps for whoever subscribes later. */
    public void publishKept(String topic, String payload) throws MqttException {
        client.publish(topic, payload.getBytes(StandardCharsets.UTF_8), 1, true);
    }

    /** Hears a filter from now on. */
    public List<String> hear(String filter) throws MqttException {
        client.subscribe(
                filter,
                1,
                (topic, message) -> heard.add(topic + " " + new String(message.getPayload(), StandardCharsets.UTF_8)));
        return heard;
    }

    @Override
    public void close() throws MqttException {
        if (client.isConnected()) {
            client.disconnectForcibly(0, 1_000);
        }
        client.close(true);
    }
}
