package traytender.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteFolder;
import traytender.config.reading.Reading;
import traytender.config.site.Broker;
import traytender.ingest.calibrate.Calibrator;
import traytender.ingest.mqtt.Sensor;
import traytender.ingest.store.SqliteReadingStore;
import traytender.testing.Mosquitto;
import traytender.testing.NeedsServer;

/**
 * One device gone mad beside an honest sensor: rubbish on a probe's topic and on ever new ones. In a build it sends as fast as it can,
 * and the honest reading may be overtaken by no more rubbish than is said below. The long form, {@code -Dflood.seconds=60}, offers
 * 5,000 a second from a process of its own and prints how long the honest readings took.
 */
class FloodTest {
    private static final Instant NOW = Instant.parse("2026-03-14T05:41:00Z");
    private static final Duration LONG = Duration.ofMinutes(3);
    /** An outside broker has its own ways: as much as comes in a second at 5,000 a second. */
    private static final int OUTSIDE = 5_000;
    /** The built-in broker lets others in before this; what was under way and read already still comes. */
    private static final int BUILT_IN = 1_000;

    private static final int SECONDS = Integer.getInteger("flood.seconds", 0);
    private static final int HONEST = SECONDS > 0 ? 5 * SECONDS : 30;

    @TempDir
    Path folder;

    /** A reading on disk, and how much rubbish had been taken by then. */
    private record Heard(Reading reading, long taken) {}

    private final BlockingQueue<Heard> heard = new LinkedBlockingQueue<>();
    private final AtomicReference<Intake> running = new AtomicReference<>();

    @Test
    void builtInBroker_rubbishDelaysNobodyElse() throws Exception {
        flood("built-in broker", AlderLane.at(folder, new Broker.BuiltIn("127.0.0.1", 0)), 0, BUILT_IN);
    }

    @Test
    @NeedsServer("mosquitto")
    void mosquitto_rubbishDelaysNobodyElse() throws Exception {
        try (var broker = Mosquitto.start(folder.resolve("mosquitto"))) {
            flood("mosquitto", AlderLane.at(folder, broker.uri()), broker.port(), OUTSIDE);
        }
    }

    private void flood(String name, SiteFolder site, int brokerPort, int overtakers) throws Exception {
        var clock = Clock.fixed(NOW, ZoneOffset.UTC);
        try (var store = SqliteReadingStore.open(Files.createDirectories(folder.resolve("data")), Calibrator::read);
                var intake = Intake.of(site, store, clock, this::hear)) {
            running.set(intake);
            intake.start();
            await().atMost(LONG).until(() -> intake.state().isSubscribed());
            int port = brokerPort == 0 ? intake.brokerPort() : brokerPort;
            try (var sensor = Sensor.at(port);
                    var mad = MadDevice.start(port, SECONDS > 0)) {
                await().atMost(LONG).until(() -> intake.counts().refused() > 100);
                var delays = new ArrayList<Long>();
                for (int i = 1; i <= HONEST; i++) {
                    delays.add(honest(intake, sensor, i, overtakers));
                }
                long sent = mad.stop();

                await().atMost(LONG)
                        .until(() -> intake.counts().refused() + intake.counts().unassigned() == sent);
                var counts = intake.counts();
                assertThat(counts.received()).isEqualTo(counts.stored() + counts.repeated() + counts.refused());
                assertThat(counts.stored()).isEqualTo(HONEST).isEqualTo(store.count());
                assertThat(intake.unassigned()).hasSizeLessThanOrEqualTo(1_001);
                tell(name, sent, delays);
            }
        }
    }

    /** On the intake's own thread, so that what comes before this test's thread runs again does not count. */
    private void hear(List<Reading> readings) {
        readings.forEach(reading -> heard.add(new Heard(reading, taken(running.get()))));
    }

    /** Sends a reading and waits until it is on disk; gives how long that took, in ns. */
    private long honest(Intake intake, Sensor sensor, int number, int overtakers) throws Exception {
        long due = SECONDS > 0 ? TimeUnit.MILLISECONDS.toNanos(200) : 0;
        long begun = System.nanoTime();
        sensor.publish("alder/T01/centre", "{\"soil\":0.5,\"at\":" + (1_773_400_000 + number) + "}");
        long before = taken(intake);
        Heard reading = heard.poll(LONG.toSeconds(), TimeUnit.SECONDS);
        long took = System.nanoTime() - begun;
        assertThat(reading).as("reading %d", number).isNotNull();
        assertThat(reading.taken() - before)
                .as("taken before reading %d", number)
                .isLessThanOrEqualTo(overtakers);
        LockSupport.parkNanos(due - took);
        return took;
    }

    private static long taken(Intake intake) {
        var counts = intake.counts();
        return counts.refused() + counts.unassigned();
    }

    private static void tell(String name, long sent, List<Long> delays) {
        delays.sort(null);
        System.out.printf(
                "%s: %d pieces of rubbish; %d honest readings on disk after %.0f ms (median), %.0f ms (longest)%n",
                name, sent, delays.size(), delays.get(delays.size() / 2) / 1e6, delays.get(delays.size() - 1) / 1e6);
    }
}
