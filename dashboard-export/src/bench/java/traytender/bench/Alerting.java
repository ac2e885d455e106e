package traytender.bench;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.locks.LockSupport;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.ingest.mqtt.Sender;
import traytender.testing.Mosquitto;

/**
 * From a sensor's message to the alert on the page, while 100 other messages come a second. The message is the last of a dry hour
 * that a buffering sensor hands over at once, so that the time for which the condition must last has passed already.
 */
final class Alerting implements Work {
    private static final int TRAYS = 40;
    private static final long PAUSE_NANOS = 10_000_000;

    @Override
    public List<Result> measure(Place place) throws Exception {
        try (var broker = Mosquitto.startInMemory(place.folder("broker-alerting"))) {
            Season site = Season.site(place.folder("alerting"), TRAYS, "broker: \"" + broker.uri() + "\"");
            var yaml = site.path().resolve("site.yaml");
            String own = Files.readString(yaml).replace("value: /value}", "value: /value, time: /at}");
            Files.writeString(yaml, own);
            double[] delays = new double[TRAYS];
            var stop = new AtomicBoolean();
            try (Running program =
                            Running.start(place.program(), site.path(), "").awaitWell();
                    var sensor = Sender.connect(broker.uri(), "bench-late")) {
                var others = new Thread(() -> sendOthers(broker.uri(), stop), "bench-others");
                others.start();
                try {
                    for (int tray = 1; tray <= TRAYS; tray++) {
                        delays[tray - 1] = delayMs(program, sensor, tray);
                    }
                } finally {
                    stop.set(true);
                    others.join();
                }
            }
            Arrays.sort(delays);
            double worst = delays[Math.min(TRAYS - 1, (int) (0.99 * TRAYS))];
            return List.of(Result.below(
                    "publish to alert on the page, p99 of %d".formatted(TRAYS),
                    worst,
                    Night.median(delays),
                    250,
                    "ms",
                    "limit column: the median"));
        }
    }

    private static double delayMs(Running program, Sender sensor, int tray) throws Exception {
        Instant now = Clock.systemUTC().instant().truncatedTo(ChronoUnit.SECONDS);
        for (int minute = 60; minute >= 2; minute--) {
            send(sensor, tray, 0, 2_700, now.minus(minute, ChronoUnit.MINUTES));
        }
        sensor.flush();
        long start = System.nanoTime();
        String mark = "\"kind\":\"dry\",\"tray\":\"" + Season.tray(tray) + "\"";
        program.await(() -> program.answer("/api/v1/alerts?open=true").body().contains(mark));
        return (System.nanoTime() - start) / 1e6;
    }

    /** A hundred readings a second of what is well: the last probe of every tray. */
    private static void sendOthers(String uri, AtomicBoolean stop) {
        try (var sensor = Sender.connect(uri, "bench-others")) {
            for (int i = 0; !stop.get(); i++) {
                send(sensor, 1 + i % TRAYS, 6, 19.5, Clock.systemUTC().instant());
                LockSupport.parkNanos(PAUSE_NANOS);
            }
            sensor.flush();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void send(Sender sensor, int tray, int probe, double value, Instant at) throws InterruptedException {
        String payload = "{\"value\": %s, \"at\": \"%s\"}".formatted(value, at);
        sensor.send(Season.topic(tray, probe), payload.getBytes(StandardCharsets.UTF_8));
    }
}
