package traytender.ingest.mqtt;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.ingest.mqtt.MqttLink.Patience;
import traytender.testing.Mosquitto;
import traytender.testing.NeedsServer;

@NeedsServer({"mosquitto", "mosquitto_pub"})
class MqttLinkTest {
    private static final Duration LONG = Duration.ofSeconds(30);
    private static final String OPEN = "user alder\ntopic readwrite #\n";
    private static final String MUTE = "user alder\ntopic write #\n";
    private static final Patience SHORT =
            new Patience(TimeUnit.SECONDS.toNanos(2), TimeUnit.SECONDS.toNanos(2), TimeUnit.SECONDS.toNanos(10));

    @TempDir
    Path temporary;

    private final List<Incoming> heard = new CopyOnWriteArrayList<>();

    private MqttLink link(Mosquitto broker, Patience patience) {
        return link(broker, patience, heard::add);
    }

    private static MqttLink link(Mosquitto broker, Patience patience, MqttLink.Receiver receiver) {
        var settings = new LinkSettings(broker.uri(), "alder", "bench", null, "traytender");
        return new MqttLink(settings, List.of("alder/T01"), receiver, Clock.systemUTC(), patience);
    }

    private void awaitHeard(int count) {
        await().atMost(LONG).until(() -> heard.size() >= count);
    }

    /**
     * A connection that lives, answers, and brings nothing: here an access list changed under way. The link must see it by its own
     * status that does not come back, and connect anew.
     */
    @Test
    void connectionThatBringsNothing_isMadeAnew() {
        try (var broker = Mosquitto.start(temporary, "alder", "bench", OPEN);
                var link = link(broker, SHORT)) {
            link.start();
            await().atMost(LONG).until(() -> link.state().isSubscribed());
            broker.publish("alder/T01", "before");
            awaitHeard(1);
            int first = heard.get(0).receipt().generation();

            broker.changeRules(MUTE);
            await().atMost(LONG).until(() -> link.state().trouble() != null);
            assertThat(link.state().trouble()).contains("no longer brings messages");
            broker.changeRules(OPEN);
            await().atMost(LONG).until(() -> link.state().isSubscribed());
            broker.publish("alder/T01", "after");

            awaitHeard(2);
            assertThat(heard.get(heard.size() - 1).receipt().generation()).isGreaterThan(first);
        }
    }

    @Test
    void quietConnection_thatEchoes_isKept() {
        try (var broker = Mosquitto.start(temporary, "alder", "bench", OPEN);
                var link = link(
                        broker,
                        new Patience(
                                TimeUnit.MILLISECONDS.toNanos(500),
                                TimeUnit.SECONDS.toNanos(10),
                                TimeUnit.SECONDS.toNanos(10)))) {
            link.start();
            await().atMost(LONG).until(() -> link.state().isSubscribed());
            broker.publish("alder/T01", "before");
            awaitHeard(1);

            // The status is heard again and again by somebody else too.
            assertThat(broker.hear("traytender/status", "-C", "3", "-W", "20")).hasSize(3);
            broker.publish("alder/T01", "after");

            awaitHeard(2);
            assertThat(heard)
                    .extracting(message -> message.receipt().generation())
                    .containsOnly(1);
        }
    }

    /** What came on an earlier connection is not acknowledged on a later one, where its number may mean another message. */
    @Test
    void acknowledgement_ofAnEarlierConnection_isNotGiven_andTheMessageComesAgain() {
        try (var broker = Mosquitto.start(temporary, "alder", "bench", OPEN);
                var link = link(broker, Patience.USUAL)) {
            link.start();
            await().atMost(LONG).until(() -> link.state().isSubscribed());
            broker.publish("alder/T01", "one");
            awaitHeard(1);
            var early = heard.get(0);
            broker.stop();
            broker.startAgain();
            awaitHeard(2);

            link.acknowledge(early);
            broker.stop();
            broker.startAgain();

            awaitHeard(3);
            assertThat(heard)
                    .extracting(message -> new String(message.payload(), StandardCharsets.UTF_8))
                    .containsOnly("one");
            assertThat(heard)
                    .extracting(message -> message.receipt().generation())
                    .doesNotHaveDuplicates();
        }
    }

    /** Behind a long queue the broker's answer to the subscription comes last: it is waited for, on this connection. */
    @Test
    void answerBehindALongQueue_isWaitedFor() {
        try (var broker = Mosquitto.start(temporary, "alder", "bench", OPEN)) {
            try (var link = link(broker, Patience.USUAL)) {
                link.start();
                await().atMost(LONG).until(() -> link.state().isSubscribed());
            }
            IntStream.range(0, 30).forEach(i -> broker.publish("alder/T01", "waiting " + i));
            var room = new Semaphore(0);
            var impatient = new Patience(
                    TimeUnit.MILLISECONDS.toNanos(100),
                    TimeUnit.MILLISECONDS.toNanos(100),
                    TimeUnit.MILLISECONDS.toNanos(100));
            try (var link = link(broker, impatient, message -> {
                room.acquire();
                heard.add(message);
            })) {
                link.start();
                await().atMost(LONG).until(room::hasQueuedThreads);
                // Two seconds by somebody else's clock, in which there is no room for the first message.
                broker.hear("nothing/here", "-W", "2");
                room.release(1_000);

                await().atMost(LONG).until(() -> {
                    heard.forEach(link::acknowledge);
                    return link.state().isSubscribed() && heard.size() >= 30;
                });
                assertThat(heard)
                        .extracting(message -> message.receipt().generation())
                        .containsOnly(1);
            }
        }
    }
}
