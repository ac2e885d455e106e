package traytender.ingest.broker;

import io.netty.channel.ChannelPipeline;
import io.netty.handler.codec.mqtt.MqttDecoder;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.net.InetSocketAddress;
import java.util.List;
import java.util.Map;
import java.util.function.LongSupplier;
import org.apache.activemq.artemis.api.core.BaseInterceptor;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTProtocolHandler;
import org.apache.activemq.artemis.core.protocol.mqtt.MQTTProtocolManagerFactory;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.spi.core.protocol.ProtocolManager;

/**
 * The broker's MQTT with two bounds that it does not have by itself, for strangers too: a {@link FloodGate} for each connection, and
 * a largest packet. Its own is 256 MB, which a small machine has not got.
 */
@SuppressWarnings("rawtypes") // As the broker's own interface has it.
final class GatedMqtt extends MQTTProtocolManagerFactory {
    /** Longer packets end their connection; up to here a message that is too long is refused by name. Our choice. */
    private static final int LARGEST_PACKET = 2 << 20;

    private static final String GATE = "flood-gate";

    private final int ownPort;
    private final LongSupplier waiting;

    /**
     * The same bounds at each of the broker's doors but one.
     *
     * @param ownPort the program's own door: what it acknowledges must never wait
     * @param waiting how many messages wait for the program
     */
    GatedMqtt(int ownPort, LongSupplier waiting) {
        this.ownPort = ownPort;
        this.waiting = waiting;
    }

    @Override
    public ProtocolManager createProtocolManager(
            ActiveMQServer server,
            Map<String, Object> parameters,
            List<BaseInterceptor> incoming,
            List<BaseInterceptor> outgoing)
            throws Exception {
        ProtocolManager usual = super.createProtocolManager(server, parameters, incoming, outgoing);
        // The broker's own class cannot be extended.
        return (ProtocolManager) Proxy.newProxyInstance(
                getClass().getClassLoader(), new Class<?>[] {ProtocolManager.class}, (proxy, method, arguments) -> {
                    try {
                        Object answer = method.invoke(usual, arguments);
                        if (method.getName().equals("addChannelHandlers")) {
                            gate((ChannelPipeline) arguments[0]);
                        }
                        return answer;
                    } catch (InvocationTargetException e) {
                        throw e.getCause();
                    }
                });
    }

    private void gate(ChannelPipeline pipeline) {
        pipeline.replace(MqttDecoder.class, "bounded-decoder", new MqttDecoder(LARGEST_PACKET));
        boolean isOwn =
                pipeline.channel().localAddress() instanceof InetSocketAddress address && address.getPort() == ownPort;
        if (!isOwn) {
            pipeline.addBefore(
                    pipeline.context(MQTTProtocolHandler.class).name(), GATE, new FloodGate(System::nanoTime, waiting));
        }
    }
}
