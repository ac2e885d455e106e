package traytender.dashboard.setup;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import traytender.ingest.mqtt.Sender;

/**
 * Sensors on the bench that send, a few times a second, what they are set to. They have clocks of their own, and can keep what they
 * read while they are out of reach, to send it later. <b>Safe from any thread.</b>
 */
final class SimulatedSensors implements AutoCloseable {
    static final double ROOM_C = 21.4;
    private static final long EVERY_MS = 200;
    /** As many as the page looks at to tell whether a probe in the hand is steady. */
    private static final int STEADY = 12;

    private static final Duration APART = Duration.ofMillis(5);

    private final Map<String, Double> raw = new TreeMap<>();
    private final Sender sender;
    private final Clock clock;
    private final ScheduledExecutorService timer = Executors.newSingleThreadScheduledExecutor();
    private double warmth = ROOM_C;
    private boolean isOutOfReach;

    SimulatedSensors(int port, Clock clock) throws InterruptedException {
        this.sender = Sender.connect("tcp://127.0.0.1:" + port, "bench");
        this.clock = clock;
        ScheduledFuture<?> unused =
                timer.scheduleWithFixedDelay(this::sendAsSet, 0, EVERY_MS, TimeUnit.MILLISECONDS);
    }

    /** Sets what a moisture sensor reads, in counts. */
    synchronized void set(String name, double counts) {
        raw.put(name, counts);
    }

    /** Sets what their thermometers read, C. */
    synchronized void warm(double celsius) {
        warmth = celsius;
    }

    /** Sends what they are set to so often that a hand that holds one sees it steady. */
    synchronized void sendSteadily() {
        Instant now = clock.instant();
        for (int back = STEADY - 1; back >= 0; back--) {
            send(now.minus(APART.multipliedBy(back)));
        }
    }

    /** From now on they send only what they have kept. */
    synchronized void outOfReach() {
        isOutOfReach = true;
    }

    /** Sends what they are set to as read at a time that is over. */
    synchronized void sendKept(Instant at) {
        send(at);
    }

    /** They send by themselves again. */
    synchronized void backInReach() {
        isOutOfReach = false;
    }

    private synchronized void sendAsSet() {
        if (!isOutOfReach) {
            send(clock.instant());
        }
    }

    private void send(Instant time) {
        Instant at = time.truncatedTo(ChronoUnit.MILLIS);
        try {
            for (var one : raw.entrySet()) {
                send(
                        "alder/" + one.getKey(),
                        "{\"soil\": %s, \"temp\": %s, \"at\": \"%s\"}".formatted(one.getValue(), warmth, at));
            }
            send("alder/air", """
                    [{"bn":"alder:air:","bt":%s,"n":"temp","u":"Cel","v":20.5},{"n":"hum","u":"%%RH","v":55}]
                    """.formatted(at.toEpochMilli() / 1000.0));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void send(String topic, String payload) throws InterruptedException {
        sender.send(topic, payload.getBytes(StandardCharsets.UTF_8));
    }

    @Override
    public void close() {
        timer.shutdownNow();
        sender.close();
    }
}
