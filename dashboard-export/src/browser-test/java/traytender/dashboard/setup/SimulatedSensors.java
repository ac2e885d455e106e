package traytender.dashboard.setup;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import traytender.ingest.mqtt.Sender;

/** Sensors on the bench that send, a few times a second, what they are set to. */
final class SimulatedSensors implements AutoCloseable {
    static final double ROOM_C = 21.4;
    private static final long EVERY_MS = 200;

    private final Map<String, Double> raw = new ConcurrentHashMap<>();
    private volatile double warmth = ROOM_C;
    private final Sender sender;
    private final Clock clock;
    private final ScheduledExecutorService timer = Executors.newSingleThreadScheduledExecutor();

    SimulatedSensors(int port, Clock clock) throws InterruptedException {
        this.sender = Sender.connect("tcp://127.0.0.1:" + port, "bench");
        this.clock = clock;
        ScheduledFuture<?> unused = timer.scheduleWithFixedDelay(this::send, 0, EVERY_MS, TimeUnit.MILLISECONDS);
    }

    /** Sets what a moisture sensor reads, in counts. */
    void set(String name, double counts) {
        raw.put(name, counts);
    }

    /** Sets what their thermometers read, C. */
    void warm(double celsius) {
        warmth = celsius;
    }

    private synchronized void send() {
        String at = clock.instant().truncatedTo(ChronoUnit.MILLIS).toString();
        try {
            for (var one : raw.entrySet()) {
                send("alder/" + one.getKey(), "{\"soil\": " + one.getValue() + ", \"temp\": " + warmth + ", \"at\": \"" + at + "\"}");
            }
            send("alder/air", "[{\"bn\":\"alder:air:\",\"n\":\"temp\",\"u\":\"Cel\",\"v\":20.5},{\"n\":\"hum\",\"u\":\"%RH\",\"v\":55}]");
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void send(String topic, String payload) throws InterruptedException {
        sender.send(topic, payload.getBytes(StandardCharsets.UTF_8));
    }

    /** Sends once now, whatever the time. */
    void sendNow() {
        send();
    }

    @Override
    public void close() {
        timer.shutdownNow();
        sender.close();
    }
}
