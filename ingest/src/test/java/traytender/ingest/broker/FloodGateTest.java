package traytender.ingest.broker;

import static org.assertj.core.api.Assertions.assertThat;

import io.netty.buffer.Unpooled;
import io.netty.channel.embedded.EmbeddedChannel;
import io.netty.handler.codec.mqtt.MqttFixedHeader;
import io.netty.handler.codec.mqtt.MqttMessage;
import io.netty.handler.codec.mqtt.MqttMessageIdVariableHeader;
import io.netty.handler.codec.mqtt.MqttMessageType;
import io.netty.handler.codec.mqtt.MqttPublishMessage;
import io.netty.handler.codec.mqtt.MqttPublishVariableHeader;
import io.netty.handler.codec.mqtt.MqttQoS;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

/** A connection's own time goes by hand; what comes through it are real packets in a real pipeline. */
class FloodGateTest {
    private static final long SECOND = TimeUnit.SECONDS.toNanos(1);

    private final AtomicLong nanos = new AtomicLong();
    private final AtomicLong waiting = new AtomicLong();

    @Test
    void burst_isFree_thenAShareASecond_andQuietEarnsTheBurstAgain() {
        var pace = new Pace(new Pace.Share(100, 10), nanos::get);

        assertThat(pace.spend(100)).isZero();
        assertThat(pace.spend(5)).isEqualTo(SECOND / 2);
        nanos.addAndGet(SECOND / 2);
        assertThat(pace.spend(0)).isZero();
        assertThat(pace.spend(1)).isEqualTo(SECOND / 10);
        nanos.addAndGet(3600 * SECOND);
        assertThat(pace.spend(100)).isZero();
        assertThat(pace.spend(1)).isPositive();
    }

    /** An embedded connection has no address of this machine, as a device on the network has none. */
    @Test
    void madDevice_isReadNoMore_untilWhatItOwesIsOver_andLosesNothing() {
        var connection = new EmbeddedChannel(new FloodGate(nanos::get, waiting::get));
        connection.freezeTime();
        int burst = Pace.Share.DEVICE.burst();
        int perSecond = Pace.Share.DEVICE.perSecond();

        send(connection, burst, 1);
        assertThat(connection.config().isAutoRead()).isTrue();
        send(connection, perSecond, 1);
        assertThat(connection.config().isAutoRead()).isFalse();
        go(connection, SECOND - 10);
        assertThat(connection.config().isAutoRead()).isFalse();
        go(connection, 20);
        assertThat(connection.config().isAutoRead()).isTrue();

        assertThat(connection.inboundMessages()).hasSize(burst + perSecond);
        connection.finishAndReleaseAll();
    }

    @Test
    void longMessages_countForAsManyAsTheyAreLong() {
        var connection = new EmbeddedChannel(new FloodGate(nanos::get, waiting::get));

        send(connection, Pace.Share.DEVICE.burst() / 64, 64 * 1024);

        assertThat(connection.config().isAutoRead()).isFalse();
        connection.finishAndReleaseAll();
    }

    @Test
    void messagesNotYetAcknowledged_keepFurtherOnesOut_untilTheBrokerHasAnswered() {
        var connection = new EmbeddedChannel(new FloodGate(nanos::get, waiting::get));
        connection.freezeTime();

        send(connection, FloodGate.UNDER_WAY - 1, 1, MqttQoS.AT_LEAST_ONCE);
        assertThat(connection.config().isAutoRead()).isTrue();
        send(connection, 1, 1, MqttQoS.AT_LEAST_ONCE);
        assertThat(connection.config().isAutoRead()).isFalse();
        go(connection, SECOND);
        assertThat(connection.config().isAutoRead()).isFalse();
        var header = new MqttFixedHeader(MqttMessageType.PUBACK, false, MqttQoS.AT_MOST_ONCE, false, 2);
        connection.writeOutbound(new MqttMessage(header, MqttMessageIdVariableHeader.from(1)));
        go(connection, SECOND);
        assertThat(connection.config().isAutoRead()).isTrue();

        connection.finishAndReleaseAll();
    }

    @Test
    void manyMessagesWaiting_letThroughNoMoreThanAnHonestSensorSends_untilTheyAreFewer() {
        var connection = new EmbeddedChannel(new FloodGate(nanos::get, waiting::get));
        connection.freezeTime();
        int honest = Pace.Share.MODEST.burst();
        waiting.set(FloodGate.LONG_QUEUE + 1);

        send(connection, honest, 1);
        assertThat(connection.config().isAutoRead()).isTrue();
        send(connection, 2 * Pace.Share.MODEST.perSecond(), 1);
        assertThat(connection.config().isAutoRead()).isFalse();
        go(connection, SECOND);
        assertThat(connection.config().isAutoRead()).isFalse();
        waiting.set(FloodGate.LONG_QUEUE);
        go(connection, SECOND / 10);
        assertThat(connection.config().isAutoRead()).isTrue();

        connection.finishAndReleaseAll();
    }

    private void go(EmbeddedChannel connection, long time) {
        nanos.addAndGet(time);
        connection.advanceTimeBy(time, TimeUnit.NANOSECONDS);
        connection.runScheduledPendingTasks();
    }

    private static void send(EmbeddedChannel connection, int count, int bytes) {
        send(connection, count, bytes, MqttQoS.AT_MOST_ONCE);
    }

    private static void send(EmbeddedChannel connection, int count, int bytes, MqttQoS quality) {
        var header = new MqttFixedHeader(MqttMessageType.PUBLISH, false, quality, false, 0);
        for (int id = 1; id <= count; id++) {
            connection.writeInbound(new MqttPublishMessage(
                    header, new MqttPublishVariableHeader("alder/T01", id), Unpooled.wrappedBuffer(new byte[bytes])));
        }
    }
}
