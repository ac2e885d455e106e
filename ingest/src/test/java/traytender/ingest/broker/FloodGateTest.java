package traytender.ingest.broker;

import static org.assertj.core.api.Assertions.assertThat;

import io.netty.buffer.Unpooled;
import io.netty.channel.embedded.EmbeddedChannel;
import io.netty.handler.codec.mqtt.MqttFixedHeader;
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
        var connection = new EmbeddedChannel(new FloodGate(nanos::get));
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
        var connection = new EmbeddedChannel(new FloodGate(nanos::get));

        send(connection, Pace.Share.DEVICE.burst() / 64, 64 * 1024);

        assertThat(connection.config().isAutoRead()).isFalse();
        connection.finishAndReleaseAll();
    }

    private void go(EmbeddedChannel connection, long time) {
        nanos.addAndGet(time);
        connection.advanceTimeBy(time, TimeUnit.NANOSECONDS);
        connection.runScheduledPendingTasks();
    }

    private static void send(EmbeddedChannel connection, int count, int bytes) {
        var header = new MqttFixedHeader(MqttMessageType.PUBLISH, false, MqttQoS.AT_LEAST_ONCE, false, 0);
        for (int id = 1; id <= count; id++) {
            connection.writeInbound(new MqttPublishMessage(
                    header, new MqttPublishVariableHeader("alder/T01", id), Unpooled.wrappedBuffer(new byte[bytes])));
        }
    }
}
