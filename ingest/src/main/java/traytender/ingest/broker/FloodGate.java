package traytender.ingest.broker;

import io.netty.channel.ChannelDuplexHandler;
import io.netty.channel.ChannelHandlerContext;
import io.netty.channel.ChannelPromise;
import io.netty.channel.FixedRecvByteBufAllocator;
import io.netty.handler.codec.mqtt.MqttMessage;
import io.netty.handler.codec.mqtt.MqttMessageType;
import io.netty.handler.codec.mqtt.MqttPublishMessage;
import io.netty.handler.codec.mqtt.MqttQoS;
import java.net.InetSocketAddress;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Slows down a sensor that sends more than its share: no more is read from its connection until it may send again, so that it takes
 * nothing from others, neither time nor memory nor disk. Nothing is dropped. One for each connection.
 *
 * <p>Its share is its {@link Pace}; beside that it may have {@value #UNDER_WAY} messages under way that the broker has not yet
 * acknowledged, and while more than {@value #LONG_QUEUE} messages wait for the program, from whomever, no more than the pace of an
 * honest sensor. So whoever comes next waits behind some hundred messages and not behind all that a mad device can send.
 */
final class FloodGate extends ChannelDuplexHandler {
    private static final Logger log = LoggerFactory.getLogger(FloodGate.class);
    /** A message counts once for each of these bytes that it begins; our choice, larger than any sensor's message. */
    private static final int PIECE = 1024;
    /** What is read at once comes through even when the gate closes meanwhile: some dozens of small messages. */
    private static final int READ_AT_ONCE = 2048;
    /** Our choice: ten times what a client library of today has under way. */
    static final int UNDER_WAY = 100;
    /** A small machine stores so many in some hundredths of a second, see {@code FloodTest}. Our choice. */
    static final int LONG_QUEUE = 100;

    /** By then a sensor has sent what it kept while it had no connection; our choice. */
    private static final long TOLD_AFTER_NANOS = TimeUnit.MINUTES.toNanos(2);

    private static final long LOOK_AGAIN_NANOS = TimeUnit.MILLISECONDS.toNanos(1);

    private final LongSupplier nanos;
    private final LongSupplier waiting;
    private Pace pace = new Pace(Pace.Share.DEVICE, () -> 0);
    private final Pace modest;
    private int underWay;
    private boolean isHolding;
    private @Nullable Long slowedSince;
    private boolean isTold;

    /**
     * A gate that is open.
     *
     * @param waiting how many messages wait for the program
     */
    FloodGate(LongSupplier nanos, LongSupplier waiting) {
        this.nanos = nanos;
        this.waiting = waiting;
        this.modest = new Pace(Pace.Share.MODEST, nanos);
    }

    @Override
    public void handlerAdded(ChannelHandlerContext context) {
        boolean isHere = context.channel().remoteAddress() instanceof InetSocketAddress address
                && address.getAddress().isLoopbackAddress();
        pace = new Pace(isHere ? Pace.Share.THIS_MACHINE : Pace.Share.DEVICE, nanos);
        context.channel().config().setRecvByteBufAllocator(new FixedRecvByteBufAllocator(READ_AT_ONCE));
    }

    @Override
    public void channelRead(ChannelHandlerContext context, Object packet) throws Exception {
        if (packet instanceof MqttPublishMessage message) {
            int pieces = 1 + message.payload().readableBytes() / PIECE;
            long wait = pace.spend(pieces);
            if (waiting.getAsLong() > LONG_QUEUE) {
                modest.spend(pieces);
            }
            if (message.fixedHeader().qosLevel() != MqttQoS.AT_MOST_ONCE) {
                underWay++;
            }
            if (wait > 0) {
                tell(context);
            }
            if (owed() > 0) {
                hold(context);
            }
        }
        super.channelRead(context, packet);
    }

    @Override
    public void write(ChannelHandlerContext context, Object packet, ChannelPromise promise) throws Exception {
        if (packet instanceof MqttMessage message
                && isAnswer(message.fixedHeader().messageType())) {
            underWay--;
        }
        super.write(context, packet, promise);
    }

    private static boolean isAnswer(MqttMessageType type) {
        return type == MqttMessageType.PUBACK || type == MqttMessageType.PUBREC;
    }

    /** How long nothing more may come from here, in ns; 0 when more may. */
    private long owed() {
        long debt = pace.spend(0);
        if (debt > 0) {
            return debt;
        }
        boolean isModest = waiting.getAsLong() <= LONG_QUEUE || modest.spend(0) == 0;
        return isModest && underWay < UNDER_WAY ? 0 : LOOK_AGAIN_NANOS;
    }

    private void tell(ChannelHandlerContext context) {
        long now = nanos.getAsLong();
        if (slowedSince == null) {
            slowedSince = now;
        } else if (!isTold && now - slowedSince >= TOLD_AFTER_NANOS) {
            isTold = true;
            log.warn(
                    "A sensor at {} sends more than it should; it is read more slowly",
                    context.channel().remoteAddress());
        }
    }

    /** What was read already still comes through; it is owed, so the next wait is longer. */
    private void hold(ChannelHandlerContext context) {
        if (!isHolding) {
            isHolding = true;
            context.channel().config().setAutoRead(false);
            look(context);
        }
    }

    private void look(ChannelHandlerContext context) {
        long wait = owed();
        if (wait == 0) {
            isHolding = false;
            context.channel().config().setAutoRead(true);
        } else {
            var unused = context.executor().schedule(() -> look(context), wait, TimeUnit.NANOSECONDS);
        }
    }
}
