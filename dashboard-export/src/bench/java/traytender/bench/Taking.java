package traytender.bench;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.eclipse.paho.client.mqttv3.IMqttDeliveryToken;
import org.eclipse.paho.client.mqttv3.MqttAsyncClient;
import org.eclipse.paho.client.mqttv3.MqttCallback;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.MqttMessage;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.ingest.mqtt.Sender;
import traytender.testing.Mosquitto;

/**
 * A backlog that waits at mosquitto, taken in: decoded, calibrated, on disk, judged, a page open; beside a bare subscriber that
 * acknowledges each message and counts it.
 */
final class Taking implements Work {
    private static final int MESSAGES = Integer.getInteger("benchmarks.messages", 240_000);
    /** Taken before the clock starts, here and by the bare subscriber: a season is not taken in by a program that has just begun. */
    private static final int WARMING = MESSAGES / 4;

    private static final int TRAYS = 20;

    @Override
    public List<Result> measure(Place place) throws Exception {
        double[] bare;
        double[] ours;
        try (var broker = Mosquitto.startInMemory(place.folder("broker-bare"))) {
            Child.numbers(place.program(), Counting.class, broker.uri(), 0);
            send(broker, TRAYS);
            bare = Child.numbers(place.program(), Counting.class, broker.uri(), MESSAGES);
        }
        try (var broker = Mosquitto.startInMemory(place.folder("broker-ours"))) {
            Season site = Season.site(place.folder("taking"), TRAYS, "broker: \"" + broker.uri() + "\"");
            try (Running program = Running.start(place.program(), site.path(), "")) {
                program.awaitWell();
            }
            send(broker, TRAYS);
            ours = taken(place, site);
        }
        String work = "%,d messages of quality of service 1 taken".formatted(MESSAGES - WARMING);
        String note = "a backlog at the broker, the first %,d passed over".formatted(WARMING);
        return List.of(
                Result.atLeast(work, ours[0], bare[0], 0.85, "messages/s", note),
                Result.atMost(
                        work + ", processor time",
                        ours[1],
                        bare[1],
                        1.3,
                        "us a message",
                        "decoding, calibrating, writing to disk and judging have no counterpart in the bare subscriber"));
    }

    private static void send(Mosquitto broker, int trays) throws InterruptedException {
        var random = new SplittableRandom(7);
        try (var sensor = Sender.connect(broker.uri(), "bench-sensor")) {
            for (int i = 0; i < MESSAGES; i++) {
                int probe = i % (trays * Season.PROBES);
                double value = Season.value(
                        1 + probe / Season.PROBES, probe % Season.PROBES, i / (trays * Season.PROBES), random);
                String payload = "{\"value\": " + value + "}";
                sensor.send(
                        Season.topic(1 + probe / Season.PROBES, probe % Season.PROBES),
                        payload.getBytes(StandardCharsets.UTF_8));
            }
            sensor.flush();
        }
    }

    private static double[] taken(Place place, Season site) throws Exception {
        try (Running program =
                Running.start(place.program(), site.path(), place.archive().toString())) {
            program.await(() -> program.answer("/api/v1/counts").statusCode() == 200);
            try (InputStream page = program.openPage()) {
                program.await(() -> program.stored() >= WARMING);
                long before = program.stored();
                double cpu = program.cpuSeconds();
                long start = System.nanoTime();
                program.await(() -> program.stored() >= MESSAGES);
                double seconds = (System.nanoTime() - start) / 1e9;
                long taken = MESSAGES - before;
                return new double[] {taken / seconds, 1e6 * (program.cpuSeconds() - cpu) / taken, page.available()};
            }
        }
    }

    /** The bare subscriber: broker and how many to wait for (0: only makes its session known). Prints messages/s and microseconds. */
    static final class Counting implements MqttCallback {
        private final MqttAsyncClient client;
        private final int awaited;
        private final AtomicInteger count = new AtomicInteger();
        private final AtomicLong startNanos = new AtomicLong();
        private final CountDownLatch done = new CountDownLatch(1);
        private volatile double cpu;

        private Counting(MqttAsyncClient client, int awaited) {
            this.client = client;
            this.awaited = awaited;
        }

        public static void main(String[] arguments) throws Exception {
            var client = new MqttAsyncClient(arguments[0], "counting", new MemoryPersistence());
            client.setManualAcks(true);
            var counting = new Counting(client, Integer.parseInt(arguments[1]));
            client.setCallback(counting);
            var options = new MqttConnectOptions();
            options.setCleanSession(false);
            client.connect(options).waitForCompletion();
            client.subscribe("alder/#", 1).waitForCompletion();
            if (counting.awaited > 0) {
                counting.done.await();
            }
            double seconds = (System.nanoTime() - counting.startNanos.get()) / 1e9;
            double used = Processor.seconds() - counting.cpu;
            int counted = Math.max(1, counting.awaited - WARMING);
            System.out.println(counted / seconds + " " + 1e6 * used / counted);
            client.disconnect().waitForCompletion();
            client.close();
        }

        @Override
        public void messageArrived(String topic, MqttMessage message) throws Exception {
            client.messageArrivedComplete(message.getId(), message.getQos());
            int now = count.incrementAndGet();
            if (now == WARMING) {
                startNanos.set(System.nanoTime());
                cpu = Processor.seconds();
            } else if (now == awaited) {
                done.countDown();
            }
        }

        @Override
        public void connectionLost(Throwable cause) {
            throw new IllegalStateException(cause);
        }

        @Override
        public void deliveryComplete(IMqttDeliveryToken token) {}
    }
}
