package traytender.ingest.broker;

import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelInboundHandlerAdapter;
import io.netty.handler.codec.mqtt.MqttPublishMessage;
import java.net.InetSocketAddress;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Slows down a sensor that sends more than its {@link Pace}: no more is read from its connection until it may send again, so that it
 * takes nothing from others, neither time nor memory nor disk. Nothing is dropped. One for each connection.
 */
final class FloodGate extends ChannelInboundHandlerAdapter {
    private static final Logger log = LoggerFactory.getLogger(FloodGate.class);
    /** A message counts once for each of these bytes that it begins; our choice, larger than any sensor's message. */
    private static final int PIECE = 1024;

    private final LongSupplier nanos;
    private Pace pace = new Pace(Pace.Share.DEVICE, () -> 0);
    private boolean isTold;

    FloodGate(LongSupplier nanos) {
        this.nanos = nanos;
    }

    @Override
    public void handlerAdded(ChannelHandlerContext context) {
        boolean isHere = context.channel().remoteAddress() instanceof InetSocketAddress address
                && address.getAddress().isLoopbackAddress();
        pace = new Pace(isHere ? Pace.Share.THIS_MACHINE : Pace.Share.DEVICE, nanos);
    }

    @Override
    public void channelRead(ChannelHandlerContext context, Object packet) throws Exception {
        if (packet instanceof MqttPublishMessage message) {
            long wait = pace.spend(1 + message.payload().readableBytes() / PIECE);
            if (wait > 0) {
                hold(context, wait);
            }
        }
        super.channelRead(context, packet);
    }

    /** What was read already still comes through; it is owed, so the next wait is longer. */
    private void hold(ChannelHandlerContext context, long wait) {
        var connection = context.channel().config();
        if (!isTold) {
            isTold = true;
            log.warn(
                    "A sensor at {} sends more than it should; it is read more slowly",
                    context.channel().remoteAddress());
        }
        if (connection.isAutoRead()) {
            connection.setAutoRead(false);
            openAfter(context, wait);
        }
    }

    private void openAfter(ChannelHandlerContext context, long wait) {
        var unused = context.executor().schedule(() -> open(context), wait, TimeUnit.NANOSECONDS);
    }

    private void open(ChannelHandlerContext context) {
        long wait = pace.spend(0);
        if (wait > 0) {
            openAfter(context, wait);
        } else {
            context.channel().config().setAutoRead(true);
        }
    }
}
