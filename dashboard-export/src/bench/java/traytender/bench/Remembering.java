package traytender.bench;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.ingest.mqtt.Sender;
import traytender.testing.Mosquitto;
import traytender.testing.Programs;

/** Resident memory with a day of 140 readings a minute behind it and a page open, beside an empty Java with the same flags. */
final class Remembering implements Work {
    private static final int TRAYS = 20;
    private static final long SECONDS = Long.getLong("benchmarks.live-seconds", 20);

    @Override
    public List<Result> measure(Place place) throws Exception {
        Process empty = Child.start(place.program(), Starting.Hello.class, "stay");
        try (var broker = Mosquitto.start(place.folder("broker-memory"))) {
            empty.inputReader().readLine();
            double least = Child.residentMb(empty.pid());
            double outside = residentMb(place, "memory-outside", "broker: \"" + broker.uri() + "\"", broker.uri());
            int port = Programs.freePort();
            double builtIn = residentMb(
                    place, "memory-built-in", "broker: built-in\n  port: " + port, "tcp://127.0.0.1:" + port);
            String note = "the day comes from disk, then %d s live at that rate".formatted(SECONDS);
            return List.of(
                    Result.below("resident memory, outside broker", outside, least, 160, "MB", note),
                    Result.below("resident memory, built-in broker", builtIn, least, 220, "MB", note));
        } finally {
            empty.destroy();
        }
    }

    private static double residentMb(Place place, String name, String messages, String uri) throws Exception {
        Season season = Season.site(place.folder(name), TRAYS, messages).filled(1);
        try (Running program = Running.start(
                                place.program(), season.path(), place.archive().toString())
                        .awaitWell();
                InputStream page = program.openPage();
                var sensor = Sender.connect(uri, "bench-sensor")) {
            long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(SECONDS);
            for (int second = 0; System.nanoTime() < end; second++) {
                sendSome(sensor, second);
                program.answer("/api/v1/trays");
                TimeUnit.SECONDS.sleep(1);
            }
            return page.available() >= 0 ? Child.residentMb(program.pid()) : 0;
        }
    }

    /** A sixtieth of what comes in a minute. */
    private static void sendSome(Sender sensor, int second) throws InterruptedException {
        var random = new SplittableRandom(second);
        int all = TRAYS * Season.PROBES;
        var due = new ArrayList<Integer>();
        for (int i = second * all / 60; i < (second + 1) * all / 60; i++) {
            due.add(i % all);
        }
        for (int i : due) {
            double value = Season.value(1 + i / Season.PROBES, i % Season.PROBES, 1_440, random);
            String payload = "{\"value\": " + value + "}";
            sensor.send(
                    Season.topic(1 + i / Season.PROBES, i % Season.PROBES), payload.getBytes(StandardCharsets.UTF_8));
        }
        sensor.flush();
    }
}
