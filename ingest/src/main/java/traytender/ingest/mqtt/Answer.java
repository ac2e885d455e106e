package traytender.ingest.mqtt;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.client.mqttv3.IMqttActionListener;
import org.eclipse.paho.client.mqttv3.IMqttToken;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.jspecify.annotations.Nullable;

/**
 * A broker's answer that may be waited for more than once. Paho's own token may not: a wait that was too short stays in it as its
 * failure for good, even when the answer comes. <b>Safe from any thread.</b>
 */
final class Answer implements IMqttActionListener {
    private final CountDownLatch came = new CountDownLatch(1);
    private volatile @Nullable Throwable failure;

    /**
     * Waits for so long.
     *
     * @return whether it has come
     * @throws MqttException when it came and is no, or the connection ended before it
     */
    boolean hasCome(long ms) throws MqttException {
        try {
            if (!came.await(ms, TimeUnit.MILLISECONDS)) {
                return false;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new MqttException(e);
        }
        Throwable why = failure;
        if (why != null) {
            throw why instanceof MqttException known ? known : new MqttException(why);
        }
        return true;
    }

    @Override
    public void onSuccess(IMqttToken token) {
        came.countDown();
    }

    @Override
    public void onFailure(IMqttToken token, Throwable cause) {
        failure = cause;
        came.countDown();
    }
}
